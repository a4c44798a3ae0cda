import { type Corner, corners, isCorner } from '../corner.ts';
import { keyOf, type Place } from '../key.ts';
import type { Evidence } from './evidence/evidence.ts';
import { likeliestValue } from './evidence/observe.ts';
import { neutralOf } from './evidence/spaces.ts';
import { concern } from './hypotheses.ts';
import type { Confirmation } from './model.ts';

/** The value that a confirmation wants, at the asker's place. */
export const wantedValue = (word: string, place: Place | null): string => {
  if (place === null) return word;
  if (word === 'own' || word === 'corner') return place;
  if (word === 'own-spring') return `spring-${place}`;
  return word === 'own-low' || word === 'own-high' ? `${word.slice('own-'.length)}-${place}` : word;
};

/** Whether a group shows what is asked for: `own` is the asker's place, `out` any value but a good one. */
const shows = (
  { group: base, shows: wanted }: Confirmation,
  place: Place | null,
  evidence: Evidence,
): boolean =>
  [...evidence.observed.values()].some(({ group, seen }) => {
    if (group.base !== base || !concern(group.place, place)) return false;
    const value = likeliestValue(seen);
    return wanted.some((word) =>
      word === 'out' && !group.values.slice(1).includes('out')
        ? value !== neutralOf(group)
        : value === wantedValue(word, place),
    );
  });

/** A confirmation, and all that do as well. */
const alternatives = (wanted: Confirmation): readonly Confirmation[] => [wanted, ...wanted.or];

/** The tests that answer a confirmation: at the asker's place where they are done at places. */
const testsFor = ({ test }: Confirmation, place: Place | null, { probings }: Evidence): string[] =>
  test === null
    ? []
    : probings.filter((one) => one.test.id === test && concern(one.place, place)).map(({ id }) => id);

/** All the tests that may answer what is wanted. */
export const testsToConfirm = (wanted: Confirmation, place: Place | null, evidence: Evidence): string[] =>
  alternatives(wanted).flatMap((one) => testsFor(one, place, evidence));

/** An outcome's name with `own` in the place of the corner that it ends with. */
export const cornerless = (id: string, corner: Corner, word = 'own'): string =>
  id.endsWith(`-${corner}`) ? `${id.slice(0, -corner.length)}${word}` : id;

/** `differs-own` is the outcome `differs-LR` for what stands at the left rear. */
export const isOutcome = (wanted: string, id: string, place: Place | null): boolean =>
  wanted === id ||
  (place !== null &&
    isCorner(place) &&
    (wanted === cornerless(id, place) || wanted === cornerless(id, place, 'corner')));

const isAnswered = (wanted: Confirmation, place: Place | null, evidence: Evidence): boolean =>
  evidence.probings.some(({ id, test, place: at }) => {
    if (test.id !== wanted.test || !concern(at, place)) return false;
    const outcome = test.outcomes[evidence.recorded.get(id) ?? -1];
    return outcome !== undefined && wanted.found.some((one) => isOutcome(one, outcome.id, place));
  }) || shows(wanted, place, evidence);

/** Whether a confirmation, or one that does as well, is on record. */
export const isConfirmed = (wanted: Confirmation, place: Place | null, evidence: Evidence): boolean =>
  alternatives(wanted).some((one) => isAnswered(one, place, evidence));

/**
 * Confirmations that are not on record, current, and with the outcome that is asked for: tests by their id
 * (`arm-by-hand.LR`), else groups.
 *
 * @param place of the suspect or test that asks
 */
export const missingConfirmations = (
  wanted: readonly Confirmation[],
  place: Place | null,
  evidence: Evidence,
): string[] =>
  wanted
    .filter((one) => !isConfirmed(one, place, evidence))
    .map((one) => {
      const tests = testsToConfirm(one, place, evidence);
      return tests.find((id) => !evidence.recorded.has(id)) ?? tests[0] ?? one.group ?? '';
    });

/** What an eye never replaces: the module's own pins must be measured, whatever was seen. */
export const neverBySight = 'control-module';

/** Whether an eye saw that a component is at fault. */
export const isSeenFaulty = (component: string, place: Place | null, evidence: Evidence): boolean => {
  const id = `inspected ${keyOf(component, place)}`;
  const probing = evidence.probings.find((one) => one.id === id);
  return probing?.test.outcomes[evidence.recorded.get(id) ?? -1]?.id === 'fault-seen';
};

/** Every way in which an outcome may be named for a suspect at a corner. */
export const ownNames = (id: string): string[] =>
  corners.flatMap((corner) => [cornerless(id, corner), cornerless(id, corner, 'corner')]);
