import { closings, sights, type Verb, verbs, workVerbs } from '../../core/job.ts';
import { keysOf, parseKey, placesOf } from '../../core/key.ts';
import type { Pack, Test } from '../../core/pack.ts';
import { cornerHint } from '../job/corner-hint.ts';
import { canBeSkipped, freeVerbs, namesForLog, testNamed } from '../job/read-log.ts';
import { quoted } from '../quoted.ts';
import { suggest } from '../suggest.ts';
import { speltName } from '../usual/corners.ts';
import { verbMeant } from './other-verbs.ts';
import { thingsCalled, thingsFor } from './things.ts';
import { type Choice, right, type Typed, wrong } from './typed.ts';
import { typedWord } from './typed-word.ts';

/** What was done, in any case; a thing in its place is told where it belongs. */
export const typedVerb = (typed: string, packs: readonly Pack[] = []): Typed<Verb> => {
  const verb = typedWord(typed, verbs, 'something that a log can say');
  const meant = verb.ok ? null : verbMeant(typed);
  if (meant !== null) {
    return wrong(typed, `${quoted(typed)} is not something that a log can say`, `did you mean ${meant}?`);
  }
  if (verb.ok || !namesForLog(packs).includes(speltName(typed.trim()))) return verb;
  return wrong(typed, 'what was done comes first', `write it like replaced ${typed.trim()}`);
};

/** What a verb is about where it is about one thing only, so that nobody need type it. */
export const usualWhat: Partial<Readonly<Record<Verb, string>>> = {
  cleared: 'codes',
  drove: 'road-test',
  'passed-on': 'vehicle',
  released: 'vehicle',
};

/** Verbs that say nothing without a thing that they were done to. */
export const needsWhat: readonly Verb[] = [
  ...workVerbs,
  'tested',
  'inspected',
  'completed',
  'skipped',
  'ordered',
  'received',
];

/** Where a name must say its place and does not: the names that would do. */
const placeless = (what: string, did: Verb, packs: readonly Pack[]): string[] => {
  const { base, corner, axle } = parseKey(what);
  if (corner !== null || axle !== null) return [];
  const component = packs.flatMap(({ components }) => components).find(({ id }) => id === base);
  const thing = (did === 'tested' ? testNamed(base, packs) : undefined) ?? component;
  const wanted =
    thing !== undefined && (thing !== component || !freeVerbs.includes(did) || did === 'inspected');
  return wanted && !placesOf(thing.per).includes(null) ? keysOf(base, thing.per) : [];
};

/** More than these nobody reads through. */
const mostOffered = 8;

/** Where what was typed may be one of a few things: they are offered, and whoever can answer is asked which. */
const oneOf = (
  typed: string,
  message: string,
  says: 'write' | 'did you mean',
  choices: readonly Choice[],
): Typed<never> => {
  const names = choices.slice(0, mostOffered).map(({ name }) => name);
  const more = choices.length - names.length;
  const tail = more > 0 ? ` and ${more} more` : '';
  const hint = `${says} ${names.join(', ')}${tail}${says === 'write' ? '' : '?'}`;
  return { ok: false, fault: { typed, message, hint, choices } };
};

/** Verbs whose things a pack should know, though a file may say others. */
const knownThings: readonly Verb[] = ['tested', 'inspected'];

/** What a log entry is about: a component, a step, a test, in any case and with any spelling of its corner. */
export const typedWhat = (typed: string, did: Verb, packs: readonly Pack[]): Typed<string> => {
  const known = namesForLog(packs);
  const bases = packs.flatMap(({ components, steps, tests }) =>
    [...steps, ...components, ...tests].map(({ id }) => id),
  );
  const spelt = speltName(typed.trim());
  const found = [...known, ...bases].find((name) => name.toLowerCase() === spelt.toLowerCase());
  const things = thingsFor(did, packs);
  const each = found === undefined ? [] : placeless(found, did, packs);
  if (found !== undefined && each.length > 0) {
    const title = things.find(({ name }) => name === each[0])?.title ?? found;
    const choices = each.map((name) => ({ name, title }));
    return oneOf(typed, `the log must say which ${found} was ${did}`, 'write', choices);
  }
  if (found !== undefined && did === 'skipped' && !canBeSkipped(found, packs)) {
    return wrong(
      typed,
      'only a test or a step can be skipped',
      'name a test such as arm-by-hand.LR, or a step',
    );
  }
  if (found !== undefined) return right(found);
  return unknownWhat(typed, spelt, did, packs, things);
};

/** A name that no pack knows: what was probably meant, by its letters or by the words of its title. */
const unknownWhat = (
  typed: string,
  spelt: string,
  did: Verb,
  packs: readonly Pack[],
  things: readonly Choice[],
): Typed<string> => {
  const isFree = freeVerbs.includes(did);
  const message = `nothing in this job's packs is called ${quoted(typed)}`;
  if (isFree && !knownThings.includes(did)) return right(spelt);
  const known = namesForLog(packs);
  // Before misspelt names: "spring.LR" has few letters more than "wiring.LR".
  const called = thingsCalled(spelt, things);
  if (called.length > 0) return oneOf(typed, message, 'did you mean', called);
  const near = suggest(spelt, isFree ? things.map(({ name }) => name) : known);
  if (near !== null) return wrong(typed, message, `did you mean ${near}?`);
  if (isFree) return right(spelt);
  const tail = spelt.slice(spelt.lastIndexOf('.') + 1);
  const cornered = known.some(
    (name) => parseKey(name).corner !== null && spelt.startsWith(`${parseKey(name).base}.`),
  );
  if (cornered) return wrong(typed, `${quoted(tail)} is not a corner`, cornerHint(tail));
  return wrong(typed, message, 'name a component such as sensor.LR, a step, codes, ride-height or road-test');
};

const seen: Test['outcomes'] = [
  { id: sights[0], title: 'the fault was seen' },
  { id: sights[1], title: 'nothing was seen' },
];

/**
 * What a test of a log entry can find, or what an eye can see of a component; null where the entry is about neither, so
 * that any words will do.
 */
export const outcomesOf = (
  did: Verb,
  what: readonly string[],
  packs: readonly Pack[],
): Test['outcomes'] | null => {
  if (did === 'inspected') {
    const bases = new Set(packs.flatMap(({ components }) => components).map(({ id }) => id));
    return what.some((one) => bases.has(parseKey(one).base)) ? seen : null;
  }
  if (did !== 'tested') return null;
  const [first] = what.map((one) => testNamed(one, packs)).filter((test) => test !== undefined);
  return first?.outcomes ?? null;
};

/** `in-range (the reference is right at every plug), out-of-range (…)`. */
export const outcomesText = (outcomes: Test['outcomes']): string =>
  outcomes.map(({ id, title }) => `${id} (${title})`).join(', ');

/** What was found: an outcome of the test or what an eye can say, in any case; any words where no pack knows the thing. */
export const typedFound = (
  typed: string,
  did: Verb,
  what: readonly string[],
  packs: readonly Pack[],
): Typed<string> => {
  const outcomes = outcomesOf(did, what, packs);
  if (outcomes === null) return right(typed.trim());
  const word = typedWord(
    typed,
    outcomes.map(({ id }) => id),
    did === 'inspected' ? 'what an eye can say' : `an outcome of ${what[0]}`,
  );
  if (word.ok) return word;
  const near = word.fault.hint?.startsWith('did you mean') ? `${word.fault.hint} ` : '';
  return wrong(typed, word.fault.message, `${near}it can be ${outcomesText(outcomes)}`);
};

/** An amount of money in the job's currency. */
export const typedAmount = (typed: string): Typed<string> => {
  const amount = typed.trim();
  return /^\d+(?:\.\d{1,2})?$/u.test(amount)
    ? right(amount)
    : wrong(typed, `${quoted(typed)} is not an amount`, 'write it like 420 or 138.50, without a currency');
};

/** How something went, or how a job ended. */
export const typedResult = (typed: string, did: Verb | null): Typed<string> => {
  const words = did === 'closed' ? [...closings, 'passed', 'failed'] : ['passed', 'failed'];
  return typedWord(typed, words, did === 'closed' ? 'how a job ends' : 'a result');
};
