import { leastError } from './overlap.ts';

/** Two that are mistaken for each other this often at least cannot be told apart: once in five, a coin being two. */
export const oftenWrong = 0.2;

// Rounding must not part what stands right on the limit.
const nearly = 1e-12;

/** Whether an overlap leaves two that cannot be told apart. */
export const isBlurred = (rho: number): boolean => leastError(rho) >= oftenWrong - nearly;

/**
 * Parts a set so that whatever is alike stands together, also where it is so only by way of others. Sets and members
 * keep the order that they came in.
 */
export const connectedSets = <T>(all: readonly T[], alike: (one: T, other: T) => boolean): T[][] => {
  const left = new Set(all);
  return all.flatMap((first) => {
    if (!left.delete(first)) return [];
    const set = new Set([first]);
    // A set that grows while it is walked is walked to its end.
    for (const one of set) {
      for (const other of [...left]) if (alike(one, other) && left.delete(other)) set.add(other);
    }
    return [all.filter((one) => set.has(one))];
  });
};
