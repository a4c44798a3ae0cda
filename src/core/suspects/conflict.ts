import { smallestConflicts } from './hitting-sets.ts';
import type { Hypothesis } from './hypotheses.ts';
import type { EvidenceRow } from './weigh.ts';

/** A suspect leaves unexplained what it expects less than a fifth as often as the suspect that expects it most. */
const explains = 0.2;

/** Sets that hold all of another's members say nothing more. */
const leanest = (sets: readonly (readonly string[])[]): (readonly string[])[] => {
  const distinct = [...new Map(sets.map((set) => [set.join('\n'), set])).values()];
  return distinct.filter(
    (set) =>
      !distinct.some(
        (other) => other !== set && other.length < set.length && other.every((one) => set.includes(one)),
      ),
  );
};

/**
 * The smallest set of evidence that no one listed suspect explains together: more than one fault, or a wrong reading.
 * What nothing explains well is held against the suspect that explains it best, so that it takes two to conflict. Of
 * sets of one size the one with the most that is out comes first.
 *
 * @returns ids of findings, or `test NAME`; empty where one suspect explains everything
 */
export const conflictOf = (hypotheses: readonly Hypothesis[], rows: readonly EvidenceRow[]): string[] => {
  const listed = hypotheses.flatMap(({ suspect }, index) => (suspect ? [index] : []));
  const best = rows.map(({ row }) => Math.max(...listed.map((index) => row[index] ?? 1)));
  const unexplained = listed.map((index) =>
    rows.filter(({ row }, place) => (row[index] ?? 1) < explains * (best[place] ?? 1)).map(({ id }) => id),
  );
  if (listed.length === 0 || unexplained.some((one) => one.length === 0)) return [];
  const byId = new Map(rows.map((one) => [one.id, one]));
  const quiet = (set: readonly string[]): number => set.filter((id) => byId.get(id)?.quiet).length;
  const [set] = smallestConflicts(leanest(unexplained)).sort(
    (a, b) => a.length - b.length || quiet(a) - quiet(b),
  );
  return [...new Set((set ?? []).flatMap((id) => byId.get(id)?.from ?? []))];
};
