import type { Finding } from '../finding.ts';
import type { Check } from '../pack.ts';
import { parseQuantity } from '../readings/parse-quantity.ts';
import type { UnitName } from '../readings/units.ts';
import { judgeAlone } from './alone.ts';
import { type Expectation, findingFor, type Proof } from './prove.ts';
import { turnsBetween } from './turns.ts';
import type { Unnoticed } from './unnoticed.ts';
import { type Variable, variablesOf } from './variables.ts';

/** A proof that would notice a move: one that is there already, with one quantity typed otherwise. */
export interface Suggestion {
  /** The line of the proof to copy. */
  readonly like: number;
  readonly name: string;
  /** The snapshot to change; empty where there is only one. */
  readonly snapshot: string;
  readonly value: string;
  readonly unit: UnitName;
  readonly subject: string;
  readonly expecting: string;
}

/** How often jobs may be judged in the search for one suggestion: some hundredths of a second. */
const mostTries = 1000;

/** A change of a reading by less than this part of it is near enough; nothing nearer is looked for. */
const nearEnough = 0.05;

interface Found extends Suggestion {
  /** How far from what the proof has now, as a part of it; more where the verdict would be too close to call. */
  readonly far: number;
}

const wordsOf = (finding: Finding | undefined, withWord: boolean): string => {
  if (!finding) return 'absent';
  const { verdict, weight, pattern } = finding;
  const word = withWord && pattern !== null && verdict !== 'not-taken' ? [pattern] : [];
  return [verdict, ...(verdict === 'out' ? [weight] : []), ...word].join(' ');
};

/** A place to look for a suggestion: a proof, what it expects, and what of it to type otherwise. */
interface Place {
  readonly proof: Proof;
  readonly expectation: Expectation;
  readonly variable: Variable;
}

/** What a check finds where the proof's quantity is typed otherwise, with so many places behind the point. */
const findingAt = (
  { proof, expectation, variable }: Place,
  check: Check,
  value: number,
  places: number | null,
): Finding | undefined => {
  const resolution = places === null ? variable.resolution : 10 ** -places;
  const job = variable.jobWith({ value, resolution, text: String(value) });
  return findingFor(expectation, judgeAlone(proof, check, job));
};

const suggest = (place: Place, check: Check, moved: Check, value: number, places: number): Found | null => {
  const [found, other] = [findingAt(place, check, value, places), findingAt(place, moved, value, places)];
  const whole = wordsOf(found, true);
  if (whole === wordsOf(other, true)) return null;
  const plain = wordsOf(found, false);
  const { proof, expectation, variable } = place;
  const change = Math.abs(value - variable.value) / Math.max(1, Math.abs(variable.value));
  // Few readings that are above zero can be below it.
  const turned = value < 0 && variable.value > 0;
  return {
    like: proof.line,
    name: variable.name,
    snapshot: variable.snapshot,
    value: value.toFixed(places),
    unit: variable.unit,
    subject: expectation.subject,
    expecting: plain === wordsOf(other, false) ? whole : plain,
    far: change + (found?.verdict === 'too-close' || turned ? 1 : 0),
  };
};

/** The suggestion with the shortest decimal in a stretch, rather one that is not too close to call. */
const shortestIn = (
  place: Place,
  check: Check,
  moved: Check,
  [one, other]: readonly [number, number],
): Found | null => {
  const middle = (one + other) / 2;
  let spare: Found | null = null;
  for (let places = 0; places <= 5; places += 1) {
    const value = Number(middle.toFixed(places));
    if (value <= Math.min(one, other) || value >= Math.max(one, other)) continue;
    const found = suggest(place, check, moved, value, places);
    if (found && found.far < 1) return found;
    spare ??= found;
  }
  return spare;
};

const nearer = (a: Found | null, b: Found | null): Found | null => (a && (!b || a.far <= b.far) ? a : b);

/** How far what a proof comes to is from a limit, in the limit's unit; infinite where it comes to no such quantity. */
const distanceTo = ({ check, move }: Unnoticed, proof: Proof, expectation: Expectation): number => {
  const { measured } = findingFor(expectation, judgeAlone(proof, check)) ?? {};
  const limit = measured ? parseQuantity(move.quantity.text, measured.unit) : null;
  return measured && limit?.ok ? Math.abs(measured.value - limit.value.value) : Number.POSITIVE_INFINITY;
};

/** Where to look, the proofs that come nearest to the limit first. */
const placesOf = (unnoticed: Unnoticed): Place[] =>
  unnoticed.proofs
    .flatMap(({ proof, expect }) =>
      expect.map((expectation) => ({
        proof,
        expectation,
        distance: distanceTo(unnoticed, proof, expectation),
      })),
    )
    .sort((a, b) => (a.distance === b.distance ? 0 : a.distance - b.distance))
    .flatMap(({ proof, expectation }) =>
      variablesOf(proof.job, proof.prepared.channelById).map((variable) => ({
        proof,
        expectation,
        variable,
      })),
    );

/**
 * Looks for a proof that would notice a move, among those that there are with one quantity typed otherwise. The nearest
 * to what is there already is taken.
 */
export const suggestionFor = (unnoticed: Unnoticed): Suggestion | null => {
  const { check, move } = unnoticed;
  const { moved } = move;
  let tries = mostTries;
  let best: Found | null = null;
  for (const place of placesOf(unnoticed)) {
    const says = (of: Check) => (value: number) => {
      tries -= 1;
      return wordsOf(findingAt(place, of, value, null), true);
    };
    for (const stretch of turnsBetween(says(check), says(moved), place.variable.value)) {
      best = nearer(best, shortestIn(place, check, moved, stretch));
      if (tries <= 0) break;
    }
    if (tries <= 0 || (best && best.far < nearEnough)) break;
  }
  return best;
};
