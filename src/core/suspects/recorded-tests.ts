import type { Job, LogEntry, Vehicle } from '../job.ts';
import { keyOf, type Place, parseKey } from '../key.ts';
import type { Test } from '../pack.ts';
import { isLater, isWork } from '../steps/staleness.ts';
import { concern, fittedPlaces } from './hypotheses.ts';

/** A test, or a look at a component, at one place or of the whole vehicle. */
export interface Probing {
  /** `arm-by-hand.LR`, `inspected linkage.LR` */
  readonly id: string;
  readonly test: Test;
  readonly place: Place | null;
  /** The component that is looked at; null for a test. */
  readonly inspects: string | null;
}

/** Every test that a vehicle allows, at each fitted corner or axle where it is done so. */
export const probingsOf = (
  tests: readonly Test[],
  { vehicle }: { readonly vehicle: Pick<Vehicle, 'layout' | 'fitted'> },
): Probing[] =>
  tests
    .filter(({ layouts }) => layouts === null || layouts.includes(vehicle.layout))
    .flatMap((test) =>
      fittedPlaces(test.per, vehicle.fitted).map((place) => ({
        id: keyOf(test.id, place),
        test,
        place,
        inspects: null,
      })),
    );

/** Whether work disturbs what a test found: any does, unless the test names the components that it depends on. */
const disturbsTest = ({ what }: LogEntry, { test, place }: Probing): boolean => {
  if (test.depends === null || what === null) return true;
  const worked = parseKey(what);
  return test.depends.includes(worked.base) && concern(worked.corner ?? worked.axle, place);
};

/** Whether any test or inspection is on record at all. */
export const anyTested = ({ log }: Job): boolean =>
  log.some(({ did }) => did === 'tested' || did === 'inspected');

/** Whether an entry is the record of a test, or of a look at a component. */
const records = ({ did, what }: LogEntry, { id, inspects }: Probing): boolean =>
  inspects === null ? did === 'tested' && what === id : did === 'inspected' && what === inspects;

/**
 * The newest entry of a test or an inspection, and what it found by the place of the outcome; null where there is none, where it
 * failed or found nothing, and where work was logged after it that may have changed the answer.
 */
export const recordedOutcome = (
  probing: Probing,
  { log }: Job,
): { readonly place: number; readonly entry: LogEntry } | null => {
  const entries = log.filter((entry) => records(entry, probing) && !entry.failed && entry.found !== null);
  const newest = entries.reduce<LogEntry | null>(
    (best, entry) => (best === null || isLater(entry, best) ? entry : best),
    null,
  );
  if (newest === null) return null;
  const undone = log.some((entry) => isWork(entry) && isLater(entry, newest) && disturbsTest(entry, probing));
  const place = probing.test.outcomes.findIndex(({ id }) => id === newest.found);
  return undone || place < 0 ? null : { place, entry: newest };
};
