import type { Act } from '../acts.ts';
import type { ActUse, Pack } from '../pack.ts';

const actsOf = (
  own: readonly Act[],
  name: string,
  uses: readonly ActUse[],
  named: (use: ActUse) => readonly string[],
): readonly Act[] => [
  ...new Set([...own, ...uses.flatMap((use) => (named(use).includes(name) ? [use.act] : []))]),
];

/** Packs whose tests and steps bear every act that any of the packs says of them. */
export const withActs = (packs: readonly Pack[]): readonly Pack[] => {
  const uses = packs.flatMap(({ actUses }) => actUses);
  if (uses.length === 0) return packs;
  return packs.map((pack) => ({
    ...pack,
    tests: pack.tests.map((test) => ({
      ...test,
      acts: actsOf(test.acts, test.id, uses, (use) => use.tests),
    })),
    steps: pack.steps.map((step) => ({
      ...step,
      acts: actsOf(step.acts, step.name, uses, (use) => use.steps),
    })),
  }));
};
