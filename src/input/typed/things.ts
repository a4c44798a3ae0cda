import type { Corner } from '../../core/corner.ts';
import { type Verb, workVerbs } from '../../core/job.ts';
import { keysOf, type Per, parseKey } from '../../core/key.ts';
import type { Pack } from '../../core/pack.ts';
import { cornerMeant } from '../job/corner-hint.ts';
import type { Choice } from './typed.ts';

const atPlaces = ({
  id,
  per,
  title,
}: {
  readonly id: string;
  readonly per: Per;
  readonly title: string;
}): Choice[] => keysOf(id, per).map((name) => ({ name, title }));

const unique = (things: readonly Choice[]): Choice[] => [
  ...new Map(things.map((thing) => [thing.name, thing])).values(),
];

const components = (packs: readonly Pack[]): Choice[] =>
  unique(packs.flatMap((pack) => pack.components).flatMap(atPlaces));

const tests = (packs: readonly Pack[]): Choice[] =>
  unique(packs.flatMap((pack) => pack.tests).flatMap(atPlaces));

const steps = (packs: readonly Pack[]): Choice[] =>
  unique(packs.flatMap((pack) => pack.steps).map(({ name, title }) => ({ name, title })));

/** Verbs that are about components. */
const ofComponents: readonly Verb[] = [...workVerbs, 'inspected', 'ordered', 'received', 'declined'];

/** What entries of a verb are about, in the order of the packs. */
export const thingsFor = (did: Verb, packs: readonly Pack[]): Choice[] => {
  if (did === 'tested') return tests(packs);
  if (did === 'skipped') return [...tests(packs), ...steps(packs)];
  if (did === 'completed') return steps(packs);
  if (ofComponents.includes(did)) return components(packs);
  return unique([...components(packs), ...steps(packs), ...tests(packs)]);
};

const wordsOf = (text: string): string[] =>
  text
    .toLowerCase()
    .split(/[^\p{L}\d]+/u)
    .filter((word) => word !== '');

/** The corner that is named among some words, in one word or in two, and the other words. */
const apart = (
  words: readonly string[],
): { readonly corner: Corner | null; readonly wanted: readonly string[] } => {
  for (const [index, word] of words.entries()) {
    const one = cornerMeant(word);
    const two = cornerMeant(`${word}${words[index + 1] ?? ''}`);
    const corner = one ?? two;
    if (corner !== null) return { corner, wanted: words.toSpliced(index, one === null ? 2 : 1) };
  }
  return { corner: null, wanted: words };
};

/**
 * Things whose name or title has all the words that were typed, or begins them: `spring` finds `air-spring.LR`. A corner
 * among the words is obeyed.
 */
export const thingsCalled = (typed: string, things: readonly Choice[]): Choice[] => {
  const { corner, wanted } = apart(wordsOf(typed));
  if (wanted.length === 0 || wanted.every((word) => word.length < 3)) return [];
  return things.filter(({ name, title }) => {
    const { base, corner: at } = parseKey(name);
    if (corner !== null && at !== corner) return false;
    const own = [...wordsOf(base), ...wordsOf(title)];
    return wanted.every((word) => own.some((one) => one.startsWith(word)));
  });
};
