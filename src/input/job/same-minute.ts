import type { Instant, Stamp } from '../../core/job.ts';

interface Stamped {
  readonly stamp: Stamp;
}

const minute = 60_000;

/**
 * Entries of one minute in the order of the file: one that was typed without seconds comes no earlier than those of its
 * minute that stand before it.
 */
export const inFileOrder = <T extends Stamped>(entries: readonly T[]): readonly T[] => {
  const latest = new Map<Instant, Instant>();
  let changed = false;
  const ordered = entries.map((entry) => {
    const { at, resolution } = entry.stamp;
    const begins = Math.floor(at / minute) * minute;
    const before = latest.get(begins) ?? at;
    const later = resolution === minute && before > at;
    latest.set(begins, Math.max(before, at));
    if (!later) return entry;
    changed = true;
    return { ...entry, stamp: { at: before, resolution: begins + minute - before } };
  });
  return changed ? ordered : entries;
};
