/** A number for people: at most `places` decimals, no trailing zeros, a real minus avoided so that pipes stay ASCII. */
export const formatNumber = (value: number, places = 3): string => {
  const rounded = Number(value.toFixed(places));
  return String(Object.is(rounded, -0) ? 0 : rounded);
};
