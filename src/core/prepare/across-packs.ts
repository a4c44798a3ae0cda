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

/**
 * Packs with what they say of each other: tests and steps bear every act that any pack says of them, and checks that any
 * pack looks at again later are about their moment only.
 */
export const acrossPacks = (packs: readonly Pack[]): readonly Pack[] => {
  const uses = packs.flatMap(({ actUses }) => actUses);
  const later = new Set(packs.flatMap(({ rechecks }) => rechecks));
  if (uses.length === 0 && later.size === 0) return packs;
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
    checks: pack.checks.map((check) => ({ ...check, moment: check.moment || later.has(check.id) })),
  }));
};
