import { closings, sights, type Verb, verbs, workVerbs } from '../../core/job.ts';
import { keysOf, parseKey, placesOf } from '../../core/key.ts';
import type { Pack, Test } from '../../core/pack.ts';
import { cornerHint, cornerMeant } from '../job/corner-hint.ts';
import { canBeSkipped, freeVerbs, namesForLog, testNamed } from '../job/read-log.ts';
import { quoted } from '../quoted.ts';
import { didYouMean } from '../suggest.ts';
import { right, type Typed, wrong } from './typed.ts';
import { typedWord } from './typed-word.ts';

/** What was done, in any case; a thing in its place is told where it belongs. */
export const typedVerb = (typed: string, packs: readonly Pack[] = []): Typed<Verb> => {
  const verb = typedWord(typed, verbs, 'something that a log can say');
  if (verb.ok || !namesForLog(packs).includes(withCorner(typed.trim()))) return verb;
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

/** A name with its corner spelt as files spell it: `sensor.fl` is `sensor.LF`. */
const withCorner = (typed: string): string => {
  const dot = typed.lastIndexOf('.');
  const corner = dot > 0 ? cornerMeant(typed.slice(dot + 1)) : null;
  return corner ? `${typed.slice(0, dot)}.${corner}` : typed;
};

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

/** What a log entry is about: a component, a step, a test, in any case and with any spelling of its corner. */
export const typedWhat = (typed: string, did: Verb, packs: readonly Pack[]): Typed<string> => {
  const known = namesForLog(packs);
  const bases = packs.flatMap(({ components, steps, tests }) =>
    [...steps, ...components, ...tests].map(({ id }) => id),
  );
  const spelt = withCorner(typed.trim());
  const found = [...known, ...bases].find((name) => name.toLowerCase() === spelt.toLowerCase());
  const each = found === undefined ? [] : placeless(found, did, packs);
  if (found !== undefined && each.length > 0) {
    return wrong(typed, `the log must say which ${found} was ${did}`, `write ${each.join(', ')}`);
  }
  if (found !== undefined && did === 'skipped' && !canBeSkipped(found, packs)) {
    return wrong(
      typed,
      'only a test or a step can be skipped',
      'name a test such as arm-by-hand.LR, or a step',
    );
  }
  if (found !== undefined) return right(found);
  if (freeVerbs.includes(did)) return right(spelt);
  const tail = spelt.slice(spelt.lastIndexOf('.') + 1);
  const cornered = known.some(
    (name) => parseKey(name).corner !== null && spelt.startsWith(`${parseKey(name).base}.`),
  );
  if (cornered) return wrong(typed, `${quoted(tail)} is not a corner`, cornerHint(tail));
  const hint = didYouMean(
    spelt,
    known,
    'name a component such as sensor.LR, a step, codes, ride-height or road-test',
  );
  return wrong(typed, `nothing in this job's packs is called ${quoted(typed)}`, hint);
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
