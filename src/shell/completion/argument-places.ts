import { states, verbs } from '../../core/job.ts';
import type { Pack } from '../../core/pack.ts';
import { namesForLog } from '../../input/job/read-log.ts';
import { candidate, type Wanted, words } from './candidate.ts';
import type { Names } from './names.ts';
import type { Place } from './place.ts';
import { readingCandidates } from './readings.ts';
import type { ArgumentShape } from './shape.ts';
import { packsOf, rulesOf, type Slot } from './slot.ts';

const file: Slot = async () => ({ kind: 'files' });

const state: Slot = async () => words(states);

const reading: Slot = async (place, names) => ({
  kind: 'words',
  candidates: readingCandidates(await packsOf(place, names), place.given.slice(2), place.typed),
});

const verb: Slot = async () => words(verbs);

const snapshot: Slot = async (place, names) =>
  words(await names.snapshotsOf(place.given[0] ?? '', rulesOf(place)));

/** Checks, since a finding bears the name of its check. */
const finding: Slot = async (place, names) => ({
  kind: 'words',
  candidates: (await packsOf(place, names)).flatMap(({ checks }) =>
    checks.map(({ id, title }) => candidate(id, title)),
  ),
});

const titles = (packs: readonly Pack[]): Map<string, string> =>
  new Map([
    ...packs.flatMap((pack) => pack.components.map(({ id, title }) => [id, title] as const)),
    ...packs.flatMap((pack) => pack.steps.map(({ name, title }) => [name, title] as const)),
    ...packs.flatMap((pack) => pack.tests.map(({ id, title }) => [id, title] as const)),
  ]);

const thing: Slot = async (place, names) => {
  const packs = await packsOf(place, names);
  const titled = titles(packs);
  const known = namesForLog(packs).filter((name) => !place.given.slice(2).includes(name));
  const about = (name: string): string => titled.get(name) ?? titled.get(name.replace(/\.\w+$/u, '')) ?? '';
  return { kind: 'words', candidates: known.map((name) => candidate(name, about(name))) };
};

const pack: Slot = async (place, names) => {
  const found = (await names.packNames(rulesOf(place))).filter(({ id }) => !place.given.includes(id));
  // Versions only for those who ask for one, or every name would be there twice.
  const spelt = place.typed.includes('@')
    ? found.flatMap(({ id, versions }) => versions.map((version) => `${id}@${version}`))
    : found.map(({ id }) => id);
  return words(spelt);
};

/** What the places of a command hold, in order; the last of those in `more` may be repeated. */
interface Slots {
  readonly first: readonly Slot[];
  readonly more: Slot | null;
}

/** Commands whose places hold more than their own declaration tells. */
const known: Readonly<Record<string, Slots>> = {
  new: { first: [file], more: null },
  add: { first: [file, state], more: reading },
  fill: { first: [file], more: null },
  log: { first: [file, verb], more: thing },
  fix: { first: [file, snapshot], more: reading },
  waive: { first: [file, finding], more: null },
  undo: { first: [file], more: null },
  'packs upgrade': { first: [file], more: null },
  'packs show': { first: [pack], more: null },
  'packs prove': { first: [], more: pack },
};

/** For every other command its declaration: choices, and files where it calls the place so. */
const declared = (argument: ArgumentShape | undefined): Wanted => {
  if (argument === undefined) return words([]);
  if (argument.choices.length > 0) return words(argument.choices);
  return argument.name.toUpperCase().includes('FILE') ? { kind: 'files' } : words([]);
};

/** What may stand where the next argument of a command is. */
export const argumentWanted = async (place: Place, names: Names): Promise<Wanted> => {
  const { command, path, given } = place;
  if (Object.hasOwn(known, path)) {
    const slot = known[path]?.first[given.length] ?? known[path]?.more;
    return slot ? slot(place, names) : words([]);
  }
  const last = command.arguments.at(-1);
  return declared(command.arguments[given.length] ?? (last?.variadic ? last : undefined));
};
