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
  /** Names of steps that wait for one another. */
  | { readonly kind: 'step-cycle'; readonly steps: readonly string[] }
  | { readonly kind: 'no-packs' }
  | { readonly kind: 'no-checks' };

/** What two packs both define and may define once only. */
const doubles = (
  packs: readonly Pack[],
  what: string,
  idsOf: (pack: Pack) => readonly string[],
): Disagreement[] => {
  const owner = new Map<string, string>();
  return packs.flatMap((pack) =>
    idsOf(pack).flatMap((id): Disagreement[] => {
      const first = owner.get(id) ?? pack.id;
      owner.set(id, first);
      return first === pack.id ? [] : [{ kind: 'both-define', what, id, first, second: pack.id }];
    }),
  );
};

/** Packs may share components and channels if they say the same of them. */
const differences = (packs: readonly Pack[]): Disagreement[] => {
  const said = new Map<string, { readonly pack: string; readonly text: string }>();
  return packs.flatMap((pack) =>
    [
      ...pack.components.map((one) => [`component ${one.id}`, JSON.stringify(one)] as const),
      ...pack.channels.map(
        (one) => [`channel ${one.id}`, JSON.stringify({ ...one, depends: [...one.depends].sort() })] as const,
      ),
    ].flatMap(([on, text]): Disagreement[] => {
      const first = said.get(on) ?? { pack: pack.id, text };
      said.set(on, first);
      return first.text === text ? [] : [{ kind: 'differ', on, first: first.pack, second: pack.id }];
    }),
  );
};

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
  ...doubles(packs, 'step', ({ steps }) => steps.map(({ name }) => name)),
  ...doubles(packs, 'hold point', ({ holdPoints }) => holdPoints.map(({ id }) => id)),
  ...doubles(packs, 'test', ({ tests }) => tests.map(({ id }) => id)),
  ...doubles(packs, 'suspect', ({ suspects }) => suspects.map(({ id }) => id)),
  ...doubles(packs, 'group of evidence', ({ evidence }) => evidence.map(({ id }) => id)),
  ...differences(packs),
  ...cycles(packs),
  ...noChecks(packs),
];
