import type { Pack } from '../pack.ts';
import { findCycle } from '../steps/step-order.ts';

/** Why some packs cannot be used together; nothing is wrong with each of them alone. */
export type Disagreement =
  | {
      readonly kind: 'both-define';
      readonly what: string;
      readonly id: string;
      /** Ids of the two packs, in the job's order. */
      readonly first: string;
      readonly second: string;
    }
  | { readonly kind: 'differ'; readonly on: string; readonly first: string; readonly second: string }
  /** Packs of different majors that hold the same things: one was taken to the next major without the other. */
  | {
      readonly kind: 'mixed-majors';
      readonly doubles: readonly string[];
      readonly differences: readonly string[];
      /** Each pack with its version. */
      readonly first: string;
      readonly second: string;
      /** Id of the later pack. */
      readonly pack: string;
    }
  /** Names of steps that wait for one another. */
  | { readonly kind: 'step-cycle'; readonly steps: readonly string[] }
  | { readonly kind: 'no-packs' }
  | { readonly kind: 'no-checks' };

/** What packs may define once only. */
interface Named {
  readonly what: string;
  readonly id: string;
}

const ownNames = ({ steps, holdPoints, tests, suspects, evidence }: Pack): Named[] => [
  ...steps.map(({ name }) => ({ what: 'step', id: name })),
  ...holdPoints.map(({ id }) => ({ what: 'hold point', id })),
  ...tests.map(({ id }) => ({ what: 'test', id })),
  ...suspects.map(({ id }) => ({ what: 'suspect', id })),
  ...evidence.map(({ id }) => ({ what: 'group of evidence', id })),
];

const textOf = ({ what, id }: Named): string => `${what} ${id}`;

const major = ({ version }: Pack): string => version.split('.')[0] ?? '';

/** Checks by kind and name: two packs of different majors that share one hold it twice, since it moved. */
const checkNames = ({ id: pack, checks }: Pack): string[] =>
  checks.map(({ id, kind }) => `${kind} ${id.slice(pack.length + 1)}`);

const movedChecks = (first: Pack, second: Pack): string[] => {
  const own = new Set(checkNames(first));
  return checkNames(second)
    .filter((name) => own.has(name))
    .map((name) => `check ${name.slice(name.indexOf(' ') + 1)}`);
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

/**
 * What keeps two packs from being used together. Of different majors all of it comes from one thing, and is one
 * disagreement; packs of one major have one for each name.
 */
const ofPair = (first: Pack, second: Pack): Disagreement[] => {
  const own = new Set(ownNames(first).map(textOf));
  const doubles = ownNames(second).filter((name) => own.has(textOf(name)));
  const differences = differencesOf(first, second);
  const ids = { first: first.id, second: second.id };
  if (major(first) === major(second)) {
    return [
      ...doubles.map(({ what, id }): Disagreement => ({ kind: 'both-define', what, id, ...ids })),
      ...differences.map((on): Disagreement => ({ kind: 'differ', on, ...ids })),
    ];
  }
  const twice = [...doubles.map(textOf), ...movedChecks(first, second)];
  if (twice.length === 0 && differences.length === 0) return [];
  return [
    {
      kind: 'mixed-majors',
      doubles: twice,
      differences,
      first: `${first.id} ${first.version}`,
      second: `${second.id} ${second.version}`,
      pack: second.id,
    },
  ];
};

const ofPairs = (packs: readonly Pack[]): Disagreement[] =>
  packs.flatMap((second, index) => packs.slice(0, index).flatMap((first) => ofPair(first, second)));

const cycles = (packs: readonly Pack[]): Disagreement[] => {
  const after = new Map(packs.flatMap(({ steps }) => steps.map((step) => [step.name, step.after] as const)));
  const steps = findCycle(after);
  return steps ? [{ kind: 'step-cycle', steps }] : [];
};

const noChecks = (packs: readonly Pack[]): Disagreement[] => {
  if (packs.some((pack) => pack.checks.length > 0)) return [];
  return [{ kind: packs.length === 0 ? 'no-packs' : 'no-checks' }];
};

/** Everything that keeps some packs from being used together. */
export const disagreementsOf = (packs: readonly Pack[]): Disagreement[] => [
  ...ofPairs(packs),
  ...cycles(packs),
  ...noChecks(packs),
];
