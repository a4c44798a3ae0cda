import type { Path } from '../flaw.ts';
import type { Pack } from '../pack.ts';
import type { Condition } from '../steps/condition.ts';
import type { Gap } from './gaps.ts';

interface Asked {
  readonly what: 'step' | 'hold point' | 'check';
  readonly name: string;
}

const steps = (names: readonly string[]): Asked[] => names.map((name) => ({ what: 'step', name }));
const checks = (names: readonly string[]): Asked[] => names.map((name) => ({ what: 'check', name }));

const askedBy = (condition: Condition | null): Asked[] => {
  if (condition === null) return [];
  if ('all' in condition) return condition.all.flatMap(askedBy);
  if ('any' in condition) return condition.any.flatMap(askedBy);
  if ('not' in condition) return askedBy(condition.not);
  switch (condition.fact) {
    case 'finding':
      return checks([condition.check]);
    case 'no-finding':
      return checks(condition.exceptChecks);
    case 'step':
      return steps(condition.steps);
    case 'steps':
      return steps(condition.except);
    default:
      return [];
  }
};

/** Everything that a pack asks of packs by name, and what of it asks. */
const asked = ({ steps: own, holdPoints, evidence }: Pack): (readonly [by: string, Path, Asked[]])[] =>
  [
    ...own.map(({ name, after, behind, when, answeredIf }, index) => {
      const point: Asked[] = behind === null ? [] : [{ what: 'hold point', name: behind }];
      return [
        `step ${name}`,
        ['steps', index],
        [...steps(after), ...point, ...askedBy(when), ...askedBy(answeredIf)],
      ] as const;
    }),
    ...holdPoints.map(
      ({ id, when, clearWhen }, index) =>
        [`hold point ${id}`, ['hold-points', index], [...askedBy(when), ...askedBy(clearWhen)]] as const,
    ),
    ...evidence.map(
      ({ base, sources }, index) =>
        [
          `evidence ${base}`,
          ['evidence', index],
          sources.flatMap((source) => {
            if (source.kind === 'finding') return checks([source.check]);
            return source.kind === 'corners' ? checks(source.checks) : [];
          }),
        ] as const,
    ),
  ].map(([by, path, names]) => [by, path, [...names]] as const);

/**
 * Names of steps, hold points and checks that a pack asks for and that neither it nor any other has: such a step is never
 * waited for, and such a finding never there.
 *
 * @param others the packs that it is proved with
 */
export const unknownNames = (pack: Pack, others: readonly Pack[]): Gap[] => {
  const all = [pack, ...others.filter(({ id }) => id !== pack.id)];
  const known = {
    step: all.flatMap((one) => one.steps.flatMap(({ name, id }) => [name, id])),
    'hold point': all.flatMap((one) => one.holdPoints.map(({ id }) => id)),
    check: all.flatMap((one) => one.checks.map(({ id }) => id)),
  };
  return asked(pack).flatMap(([by, path, names]) =>
    names
      .filter(({ what, name }) => !known[what].includes(name))
      .map(
        ({ what, name }): Gap => ({
          kind: 'unknown-name',
          path: [...path],
          what,
          name,
          by,
          known: known[what],
        }),
      ),
  );
};
