import type { Comparison, Standing } from '../../core/loop/compare.ts';

/** How something stands after, against before. */
export const standingWords: Readonly<Record<Standing, string>> = {
  'still-out': 'still out',
  'newly-out': 'newly out',
  'too-close': 'too close to call',
  'not-retaken': 'not taken again',
  fixed: 'fixed',
  unchanged: 'as before',
};

const order = Object.keys(standingWords) as Standing[];

/** Where a standing comes in a list: what is wrong first. */
export const standingRank = (standing: Standing | null): number =>
  standing === null ? order.length : order.indexOf(standing);

/** `2 still out, 3 fixed`; what does not show in any reading is not counted. */
export const standingSummary = ({ readings, findings }: Comparison): string => {
  const all = [...readings, ...findings];
  return order
    .map((standing) => ({ standing, count: all.filter((one) => one.standing === standing).length }))
    .filter(({ count }) => count > 0)
    .map(({ standing, count }) => `${count} ${standingWords[standing]}`)
    .join(', ');
};
