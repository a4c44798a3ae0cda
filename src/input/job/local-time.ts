import type { Instant } from '../../core/job.ts';
import { offsetAt } from '../../time/zones.ts';

const hour = 60 * 60_000;

/**
 * When to ask for a zone's offset around a local time taken as if in UTC. No zone has ever been 16 hours ahead of UTC
 * or behind it, so the instants that are meant lie between the first of these and the last; and no zone changes its
 * clocks there and back within half a day, so no offset is missed between two of them.
 */
const around = [-18 * hour, -6 * hour, 6 * hour, 18 * hour] as const;

/** A zone's offsets around a local time, the earliest first. */
const offsetsNear = (zone: string, local: number): number[] => [
  ...new Set(around.map((away) => offsetAt(zone, local + away))),
];

/**
 * The instants at which a zone's clocks show a local time: mostly one, two where they go back over it, none where
 * they skip it. The date library cannot be asked: it guesses from the offset of today, and is an hour off near
 * changes of long ago.
 *
 * @param local the date and clock time, as milliseconds as if in UTC
 */
export const instantsOf = (local: number, zone: string): Instant[] => {
  const offsets = offsetsNear(zone, local);
  const [only = 0] = offsets;
  if (offsets.length === 1) return [local - only];
  return offsets
    .map((offset) => local - offset)
    .filter((at) => offsetAt(zone, at) === local - at)
    .sort((a, b) => a - b);
};

/** What the clocks show at an instant, as milliseconds as if in UTC. */
export const localAt = (at: Instant, zone: string): number => at + offsetAt(zone, at);

/** The instant that a skipped time would be, had the clocks not been put forward. */
export const pushedForward = (local: number, zone: string): Instant =>
  local - (offsetsNear(zone, local)[0] ?? 0);

/** The first instant of a day; its midnight may be skipped, and where the whole day is, it is the next day's. */
export const startOfDay = (midnight: number, zone: string): Instant => {
  const [first] = instantsOf(midnight, zone);
  if (first !== undefined) return first;
  let before = midnight - 36 * hour;
  let after = midnight + 36 * hour;
  while (after - before > 1) {
    const middle = Math.floor((before + after) / 2);
    if (localAt(middle, zone) < midnight) before = middle;
    else after = middle;
  }
  return after;
};
