import { type Verb, verbs, workVerbs } from '../../core/job.ts';
import { parseKey } from '../../core/key.ts';
import type { Pack, Test } from '../../core/pack.ts';
import { cornerHint, cornerMeant } from '../job/corner-hint.ts';
import { freeVerbs, namesForLog, testNamed } from '../job/read-log.ts';
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
export const usualWhat: Partial<Readonly<Record<Verb, string>>> = { cleared: 'codes', drove: 'road-test' };

/** Verbs that say nothing without a thing that they were done to. */
export const needsWhat: readonly Verb[] = [
  ...workVerbs,
  'tested',
  'inspected',
  'completed',
  'ordered',
  'received',
];

/** A name with its corner spelt as files spell it: `sensor.fl` is `sensor.LF`. */
const withCorner = (typed: string): string => {
  const dot = typed.lastIndexOf('.');
  const corner = dot > 0 ? cornerMeant(typed.slice(dot + 1)) : null;
  return corner ? `${typed.slice(0, dot)}.${corner}` : typed;
};

/** Where a name must say its corner and does not: the names that would do. */
const cornerless = (what: string, did: Verb, packs: readonly Pack[]): string[] => {
  const { base, corner } = parseKey(what);
  if (corner !== null) return [];
  const component = packs.flatMap(({ components }) => components).find(({ id }) => id === base);
  const test = did === 'tested' ? testNamed(base, packs) : undefined;
  const wanted = test ? test.perCorner : component?.perCorner === true && !freeVerbs.includes(did);
  return wanted ? namesForLog(packs).filter((name) => name.startsWith(`${base}.`)) : [];
};

/** What a log entry is about: a component, a step, a test, in any case and with any spelling of its corner. */
export const typedWhat = (typed: string, did: Verb, packs: readonly Pack[]): Typed<string> => {
  const known = namesForLog(packs);
  const bases = packs.flatMap(({ components, steps, tests }) =>
    [...steps, ...components, ...tests].map(({ id }) => id),
  );
  const spelt = withCorner(typed.trim());
  const found = [...known, ...bases].find((name) => name.toLowerCase() === spelt.toLowerCase());
  const each = found === undefined ? [] : cornerless(found, did, packs);
  if (found !== undefined && each.length > 0) {
    return wrong(typed, `the log must say which ${found} was ${did}`, `write ${each.join(', ')}`);
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

/** What the tests of a log entry can find; null where none of them is a test that the packs know. */
export const outcomesOf = (what: readonly string[], packs: readonly Pack[]): Test['outcomes'] | null => {
  const [first] = what.map((one) => testNamed(one, packs)).filter((test) => test !== undefined);
  return first?.outcomes ?? null;
};

/** `in-range (the reference is right at every plug), out-of-range (…)`. */
export const outcomesText = (outcomes: Test['outcomes']): string =>
  outcomes.map(({ id, title }) => `${id} (${title})`).join(', ');

/** What a test found: one of its outcomes in any case, or any words where no pack knows the test. */
export const typedFound = (
  typed: string,
  did: Verb,
  what: readonly string[],
  packs: readonly Pack[],
): Typed<string> => {
  const outcomes = did === 'tested' ? outcomesOf(what, packs) : null;
  if (outcomes === null) return right(typed.trim());
  const word = typedWord(
    typed,
    outcomes.map(({ id }) => id),
    `an outcome of ${what[0]}`,
  );
  if (word.ok) return word;
  const near = word.fault.hint?.startsWith('did you mean') ? `${word.fault.hint} ` : '';
  return wrong(typed, word.fault.message, `${near}it can be ${outcomesText(outcomes)}`);
};
