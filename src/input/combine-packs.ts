import type { Pack } from '../core/pack.ts';
import { findCycle } from '../core/steps/order.ts';
import { type Problem, wholeFile } from './problem.ts';

const conflict = (message: string, hint: string): Problem => wholeFile('conflicting-packs', message, hint);

/** What two packs both define and may define once only. */
const doubles = (
  packs: readonly Pack[],
  what: string,
  idsOf: (pack: Pack) => readonly string[],
): Problem[] => {
  const owner = new Map<string, string>();
  return packs.flatMap((pack) =>
    idsOf(pack).flatMap((id) => {
      const first = owner.get(id);
      owner.set(id, first ?? pack.id);
      const hint = 'each is defined once, in one pack; leave one of the packs out';
      return first !== undefined && first !== pack.id
        ? [conflict(`${first} and ${pack.id} both define the ${what} ${id}`, hint)]
        : [];
    }),
  );
};

/** Packs may share components and channels if they say the same of them. */
const differences = (packs: readonly Pack[]): Problem[] => {
  const said = new Map<string, { pack: string; text: string }>();
  return packs.flatMap((pack) =>
    [
      ...pack.components.map((one) => [`component ${one.id}`, JSON.stringify(one)] as const),
      ...pack.channels.map(
        (one) => [`channel ${one.id}`, JSON.stringify({ ...one, depends: [...one.depends].sort() })] as const,
      ),
    ].flatMap(([name, text]) => {
      const first = said.get(name);
      if (!first) said.set(name, { pack: pack.id, text });
      const hint = 'packs that share one must define it alike; use versions that fit together';
      return first && first.text !== text
        ? [conflict(`${first.pack} and ${pack.id} disagree on the ${name}`, hint)]
        : [];
    }),
  );
};

/** What is wrong with a job's packs taken together; nothing is wrong with each of them alone. */
export const combinedProblems = (packs: readonly Pack[]): Problem[] => {
  const after = new Map(packs.flatMap(({ steps }) => steps.map((step) => [step.name, step.after] as const)));
  const cycle = findCycle(after);
  const cycles = cycle
    ? [
        wholeFile(
          'step-cycle',
          `these steps wait for one another: ${cycle.join(' → ')}`,
          'use versions of the packs that fit together',
        ),
      ]
    : [];
  const checks = packs.some((pack) => pack.checks.length > 0)
    ? []
    : [
        wholeFile(
          'no-checks',
          'the packs of this job hold no check, so nothing can be judged',
          'add a pack such as position-signals@1 to packs',
        ),
      ];
  return [
    ...doubles(packs, 'step', ({ steps }) => steps.map(({ name }) => name)),
    ...doubles(packs, 'hold point', ({ holdPoints }) => holdPoints.map(({ id }) => id)),
    ...differences(packs),
    ...cycles,
    ...checks,
  ];
};
