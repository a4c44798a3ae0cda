/** `about 1 h 53 min`: all the minutes of some steps. */
export const workText = (steps: readonly { readonly minutes: number }[]): string => {
  const minutes = steps.reduce((sum, step) => sum + step.minutes, 0);
  return minutes >= 60
    ? `about ${Math.floor(minutes / 60)} h ${Math.round(minutes % 60)} min`
    : `about ${Math.round(minutes)} min`;
};
