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

/** What two packs both define and may define once only. */
const doubles = (
  packs: readonly Pack[],
  places: PackPlaces,
  what: string,
  idsOf: (pack: Pack) => readonly string[],
): LocatedFlaw[] => {
  const owner = new Map<string, string>();
  return packs.flatMap((pack) =>
    idsOf(pack).flatMap((id) => {
      const first = owner.get(id) ?? pack.id;
      owner.set(id, first);
      const message = `${first} and ${pack.id} both define the ${what} ${id}`;
      return first === pack.id ? [] : [conflict(places, pack.id, message, 'leave one of the two packs out')];
    }),
  );
};

/** Packs may share components and channels if they say the same of them. */
const differences = (packs: readonly Pack[], places: PackPlaces): LocatedFlaw[] => {
  const said = new Map<string, { pack: string; text: string }>();
  return packs.flatMap((pack) =>
    [
      ...pack.components.map((one) => [`component ${one.id}`, JSON.stringify(one)] as const),
      ...pack.channels.map(
        (one) => [`channel ${one.id}`, JSON.stringify({ ...one, depends: [...one.depends].sort() })] as const,
      ),
    ].flatMap(([name, text]) => {
      const first = said.get(name) ?? { pack: pack.id, text };
      said.set(name, first);
      const message = `${first.pack} and ${pack.id} disagree on the ${name}`;
      return first.text === text
        ? []
        : [conflict(places, pack.id, message, 'use versions that fit together, or leave one out')];
    }),
  );
};

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
  ...doubles(packs, places, 'step', ({ steps }) => steps.map(({ name }) => name)),
  ...doubles(packs, places, 'hold point', ({ holdPoints }) => holdPoints.map(({ id }) => id)),
  ...doubles(packs, places, 'test', ({ tests }) => tests.map(({ id }) => id)),
  ...doubles(packs, places, 'suspect', ({ suspects }) => suspects.map(({ id }) => id)),
  ...doubles(packs, places, 'group of evidence', ({ evidence }) => evidence.map(({ id }) => id)),
  ...differences(packs, places),
  ...cycles(packs, at),
  ...noChecks(packs, at),
];
