import { IANAZone } from 'luxon';
import type { Instant } from '../core/job.ts';

const minute = 60_000;
const hour = 60 * minute;

/** Milliseconds that a zone's clocks are ahead of UTC at an instant. */
const offsetAt = (zone: string, at: Instant): number => Math.round(IANAZone.create(zone).offset(at) * minute);

/** A zone's offsets on the days around a time, the earliest first. */
const offsetsNear = (zone: string, local: number): number[] =>
  [-36, -24, -12, 0, 12, 24, 36].map((away) => offsetAt(zone, local + away * hour));

/**
 * The instants at which a zone's clocks show a local time: mostly one, two where they go back over it, none where
 * they skip it. The date library cannot be asked: it guesses from the offset of today, and is an hour off near
 * changes of long ago.
 *
 * @param local the date and clock time, as milliseconds as if in UTC
 */
export const instantsOf = (local: number, zone: string): Instant[] =>
  [...new Set(offsetsNear(zone, local))]
    .map((offset) => local - offset)
    .filter((at) => offsetAt(zone, at) === local - at)
    .sort((a, b) => a - b);

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
