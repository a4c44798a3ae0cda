import type { Pack } from '../../core/pack.ts';
import { findCycle } from '../../core/steps/step-order.ts';
import type { LocatedFlaw } from '../problem.ts';

/** Where the job names each pack, by id; what is wrong with a pair is told at the later of the two. */
export type PackPlaces = ReadonlyMap<string, number>;

const conflict = (places: PackPlaces, pack: string, message: string, hint: string): LocatedFlaw => ({
  code: 'conflicting-packs',
  at: places.get(pack) ?? 0,
  message,
  hint,
});

/** What packs may define once only, as `step height-learn`. */
const ownNames = ({ steps, holdPoints, tests, suspects, evidence }: Pack): string[] => [
  ...steps.map(({ name }) => `step ${name}`),
  ...holdPoints.map(({ id }) => `hold point ${id}`),
  ...tests.map(({ id }) => `test ${id}`),
  ...suspects.map(({ id }) => `suspect ${id}`),
  ...evidence.map(({ id }) => `group of evidence ${id}`),
];

const major = ({ version }: Pack): string => version.split('.')[0] ?? '';

/** Checks by their own names, `range rails`: two packs of different majors that share one hold it twice, since it moved. */
const checkNames = ({ id: pack, checks }: Pack): string[] =>
  checks.map(({ id, kind }) => `${kind} ${id.slice(pack.length + 1)}`);

const doublesOf = (first: Pack, second: Pack): string[] => {
  const own = new Set(ownNames(first));
  const checks = new Set(major(first) === major(second) ? [] : checkNames(first));
  return [
    ...ownNames(second).filter((name) => own.has(name)),
    ...checkNames(second)
      .filter((name) => checks.has(name))
      .map((name) => `check ${name.slice(name.indexOf(' ') + 1)}`),
  ];
};

/** What packs may share if they say the same of it. */
const sharedNames = ({ components, channels }: Pack): ReadonlyMap<string, string> =>
  new Map([
    ...components.map((one) => [`component ${one.id}`, JSON.stringify(one)] as const),
    ...channels.map(
      (one) => [`channel ${one.id}`, JSON.stringify({ ...one, depends: [...one.depends].sort() })] as const,
    ),
  ]);

const differencesOf = (first: Pack, second: Pack): string[] => {
  const said = sharedNames(first);
  return [...sharedNames(second)]
    .filter(([name, text]) => said.has(name) && said.get(name) !== text)
    .map(([name]) => name);
};

const most = 4;

const listed = (names: readonly string[]): string =>
  names.length <= most
    ? names.join(', ')
    : `${names.slice(0, most).join(', ')} and ${names.length - most} more`;

/**
 * What is wrong with two packs beside each other. Of different majors all of it comes from one thing, and is told as
 * one; the packs of one major have a flaw for each name.
 */
const pairFlaws = (first: Pack, second: Pack, places: PackPlaces): LocatedFlaw[] => {
  const doubles = doublesOf(first, second);
  const differences = differencesOf(first, second);
  if (major(first) === major(second)) {
    const flaw = (says: string, name: string, hint: string): LocatedFlaw =>
      conflict(places, second.id, `${first.id} and ${second.id} ${says} the ${name}`, hint);
    return [
      ...doubles.map((name) => flaw('both define', name, 'leave one of the two packs out')),
      ...differences.map((name) =>
        flaw('disagree on', name, 'use versions that fit together, or leave one out'),
      ),
    ];
  }
  const parts = [
    ...(doubles.length > 0 ? [`both define the ${listed(doubles)}`] : []),
    ...(differences.length > 0 ? [`disagree on the ${listed(differences)}`] : []),
  ];
  if (parts.length === 0) return [];
  const both = `${first.id} ${first.version} and ${second.id} ${second.version}`;
  const hint = 'use one major of both: cornerwise packs upgrade FILE takes a file to the newest';
  return [conflict(places, second.id, `${both} ${parts.join(', and ')}`, hint)];
};

const pairs = (packs: readonly Pack[], places: PackPlaces): LocatedFlaw[] =>
  packs.flatMap((second, index) =>
    packs.slice(0, index).flatMap((first) => pairFlaws(first, second, places)),
  );

const cycles = (packs: readonly Pack[], at: number): LocatedFlaw[] => {
  const after = new Map(packs.flatMap(({ steps }) => steps.map((step) => [step.name, step.after] as const)));
  const cycle = findCycle(after);
  if (!cycle) return [];
  const message = `steps of these packs wait for one another: ${cycle.join(' → ')}`;
  return [{ code: 'step-cycle', at, message, hint: 'use versions of the packs that fit together' }];
};

const noChecks = (packs: readonly Pack[], at: number): LocatedFlaw[] => {
  if (packs.some((pack) => pack.checks.length > 0)) return [];
  const message =
    packs.length === 0 ? 'this job names no rule packs' : 'the packs of this job hold no check to judge by';
  return [{ code: 'no-checks', at, message, hint: 'add one such as position-signals@1 to packs' }];
};

const agreeing = new WeakMap<readonly Pack[], boolean>();

/** Whether nothing is wrong with a job's packs taken together; asked once of each list, which nobody changes. */
export const packsAgree = (packs: readonly Pack[]): boolean => {
  const agree = agreeing.get(packs) ?? combinedFlaws(packs, new Map(), 0).length === 0;
  agreeing.set(packs, agree);
  return agree;
};

/**
 * What is wrong with a job's packs taken together; nothing is wrong with each of them alone.
 *
 * @param at where the job lists its packs
 */
export const combinedFlaws = (packs: readonly Pack[], places: PackPlaces, at: number): LocatedFlaw[] => [
  ...pairs(packs, places),
  ...cycles(packs, at),
  ...noChecks(packs, at),
];
