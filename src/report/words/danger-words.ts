import type { Act } from '../../core/acts.ts';

const actWords: Readonly<Record<Act, string>> = {
  drive: 'drive it',
  crank: 'crank it',
  charge: 'charge or jump the battery',
  load: 'load the battery',
};

/** `drive it, crank it or load the battery`. */
export const actsText = (forbidden: readonly Act[]): string => {
  const words = forbidden.map((act) => actWords[act]);
  const last = words.at(-1) ?? '';
  return words.length > 1 ? `${words.slice(0, -1).join(', ')} or ${last}` : last;
};

/** What a job states that is a danger. */
export const statedWords: Readonly<Record<string, string>> = {
  'on-stops': 'the body stands on its stops',
  'shared-with-brakes': 'the brakes share the air of the suspension',
};
