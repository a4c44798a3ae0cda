import type { Corner } from '../corner.ts';
import type { Job, LogEntry, Vehicle } from '../job.ts';
import { keyOf, parseKey } from '../key.ts';
import type { Test } from '../pack.ts';
import { isWork } from '../steps/staleness.ts';

/** A test at a corner, or of the whole vehicle. */
export interface Probing {
  /** `arm-by-hand.LR` */
  readonly id: string;
  readonly test: Test;
  readonly corner: Corner | null;
}

/** Every test that a vehicle allows, at each fitted corner where it is done so. */
export const probingsOf = (
  tests: readonly Test[],
  { vehicle }: { readonly vehicle: Pick<Vehicle, 'layout' | 'fitted'> },
): Probing[] =>
  tests
    .filter(({ layouts }) => layouts === null || layouts.includes(vehicle.layout))
    .flatMap((test) =>
      (test.perCorner ? vehicle.fitted : [null]).map((corner) => ({
        id: keyOf(test.id, corner),
        test,
        corner,
      })),
    );

const isAfter = (entry: LogEntry, other: LogEntry): boolean =>
  entry.stamp.at === other.stamp.at ? entry.order > other.order : entry.stamp.at > other.stamp.at;

/** Whether work disturbs what a test found: any does, unless the test names the components that it depends on. */
const disturbsTest = ({ what }: LogEntry, { test, corner }: Probing): boolean => {
  if (test.depends === null || what === null) return true;
  const worked = parseKey(what);
  return (
    test.depends.includes(worked.base) &&
    (corner === null || worked.corner === null || worked.corner === corner)
  );
};

/** Whether any test is on record at all. */
export const anyTested = ({ log }: Job): boolean => log.some(({ did }) => did === 'tested');

/**
 * What the newest `tested` entry of a test found, by the place of the outcome; null where there is none, where it
 * failed or found nothing, and where work was logged after it that may have changed the answer.
 */
export const recordedOutcome = (probing: Probing, { log }: Job): number | null => {
  const entries = log.filter(
    ({ did, what, failed, found }) => did === 'tested' && what === probing.id && !failed && found !== null,
  );
  const newest = entries.reduce<LogEntry | null>(
    (best, entry) => (best === null || isAfter(entry, best) ? entry : best),
    null,
  );
  if (newest === null) return null;
  const undone = log.some((entry) => isWork(entry) && isAfter(entry, newest) && disturbsTest(entry, probing));
  const place = probing.test.outcomes.findIndex(({ id }) => id === newest.found);
  return undone || place < 0 ? null : place;
};
