import type { Instant } from '../../core/job.ts';
import { offsetAt } from '../../time/zones.ts';

const hour = 60 * 60_000;

/** Offsets that were looked up, by zone and half day: asking the zone database is most of reading a time. */
const lookedUp = new Map<string, Map<number, number>>();
const halfDay = 12 * hour;
const mostKept = 20_000;

const offsetAtHalfDay = (zone: string, index: number): number => {
  const ofZone = lookedUp.get(zone) ?? new Map<number, number>();
  const known = ofZone.get(index);
  if (known !== undefined) return known;
  const offset = offsetAt(zone, index * halfDay);
  if (ofZone.size >= mostKept) ofZone.clear();
  ofZone.set(index, offset);
  lookedUp.set(zone, ofZone);
  return offset;
};

/** A zone's offsets on the days around a time, the earliest first. */
const offsetsNear = (zone: string, local: number): number[] => {
  const index = Math.floor(local / halfDay);
  return [-3, -2, -1, 0, 1, 2, 3, 4].map((away) => offsetAtHalfDay(zone, index + away));
};

/**
 * The one offset of a zone on the days around a time, or null where it changes there. No zone changes its clocks
 * there and back within half a day, so that one offset all around is the only one.
 */
const offsetAround = (zone: string, local: number): number | null => {
  const index = Math.floor(local / halfDay);
  const offset = offsetAtHalfDay(zone, index - 3);
  for (let away = -2; away <= 4; away += 1) {
    if (offsetAtHalfDay(zone, index + away) !== offset) return null;
  }
  return offset;
};

/**
 * The instants at which a zone's clocks show a local time: mostly one, two where they go back over it, none where
 * they skip it. The date library cannot be asked: it guesses from the offset of today, and is an hour off near
 * changes of long ago.
 *
 * @param local the date and clock time, as milliseconds as if in UTC
 */
export const instantsOf = (local: number, zone: string): Instant[] => {
  const only = offsetAround(zone, local);
  if (only !== null) return [local - only];
  return [...new Set(offsetsNear(zone, local))]
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
