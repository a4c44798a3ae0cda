/** Sets that hold none of the others: the smallest explanations. */
const minimal = (sets: readonly ReadonlySet<string>[]): ReadonlySet<string>[] =>
  sets.filter(
    (set, index) =>
      !sets.some(
        (other, place) =>
          place !== index &&
          [...other].every((one) => set.has(one)) &&
          (other.size < set.size || place < index),
      ),
  );

const inOrder = (sets: readonly ReadonlySet<string>[]): string[][] =>
  sets
    .map((set) => [...set].sort())
    .sort((a, b) => a.length - b.length || (a.join(' ') < b.join(' ') ? -1 : 1));

/**
 * The minimal sets that have something in common with every conflict: the diagnoses, where a conflict is a set of
 * parts that cannot all be good. Built conflict by conflict, keeping only what is minimal.
 * Source: R. Reiter, A theory of diagnosis from first principles (1987).
 *
 * @param conflicts sets of names; none gives the empty diagnosis, an empty one none at all
 * @returns the diagnoses, the smallest first, each in the order of the alphabet
 */
export const hittingSets = (conflicts: readonly (readonly string[])[]): string[][] => {
  let found: ReadonlySet<string>[] = [new Set()];
  for (const conflict of conflicts) {
    const grown = found.flatMap((set) =>
      conflict.some((one) => set.has(one)) ? [set] : conflict.map((one) => new Set([...set, one])),
    );
    found = minimal(grown);
  }
  return inOrder(found);
};

/**
 * The smallest sets of findings that no single suspect explains: each suspect fails to explain at least one of every
 * such set. They are the hitting sets of what each suspect leaves unexplained.
 *
 * @param unexplained for each suspect, the findings that speak against it
 */
export const smallestConflicts = (unexplained: readonly (readonly string[])[]): string[][] =>
  unexplained.some((one) => one.length === 0) ? [] : hittingSets(unexplained);
