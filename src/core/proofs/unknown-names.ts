import { workAreas } from '../job.ts';
import type { Pack } from '../pack.ts';
import { askedNames, type NamedThing } from './asked-names.ts';
import type { Gap } from './gaps.ts';

const knownIn = (packs: readonly Pack[]): Readonly<Record<NamedThing, readonly string[]>> => ({
  // Steps are asked for by their names alone: `handover/road-test` would match none.
  step: packs.flatMap((one) => one.steps.map(({ name }) => name)),
  'hold point': packs.flatMap((one) => one.holdPoints.map(({ id }) => id)),
  check: packs.flatMap((one) => one.checks.map(({ id }) => id)),
  test: packs.flatMap((one) => one.tests.map(({ id }) => id)),
  channel: packs.flatMap((one) => one.channels.map(({ id }) => id)),
  // Work may also be on an area, such as the harness.
  component: [...new Set([...packs.flatMap((one) => one.components.map(({ id }) => id)), ...workAreas])],
  'group of evidence': packs.flatMap((one) => one.evidence.map(({ base }) => base)),
  pack: packs.map(({ id }) => id),
});

/**
 * Names that a pack asks for and that neither it nor any other has: such a step is never waited for, such a finding never
 * there, and what such a danger or act forbids is allowed.
 *
 * @param others the packs that it is proved with
 */
export const unknownNames = (pack: Pack, others: readonly Pack[]): Gap[] => {
  const known = knownIn([pack, ...others.filter(({ id }) => id !== pack.id)]);
  return askedNames(pack).flatMap(({ by, path, names }) =>
    names
      .filter(({ what, name }) => !known[what].includes(name))
      .map(({ what, name }): Gap => ({ kind: 'unknown-name', path, what, name, by, known: known[what] })),
  );
};
