import type { Path } from '../flaw.ts';
import { type Pack, type StatedDanger, statedDangers } from '../pack.ts';
import type { Condition } from '../steps/condition.ts';

/** What packs ask of packs by name. */
export type NamedThing =
  | 'step'
  | 'hold point'
  | 'check'
  | 'test'
  | 'channel'
  | 'component'
  | 'group of evidence'
  | 'pack';

export interface AskedName {
  readonly what: NamedThing;
  readonly name: string;
}

/** Names that one part of a pack asks for. */
export interface Asking {
  /** What asks: `step program`. */
  readonly by: string;
  readonly path: Path;
  readonly names: readonly AskedName[];
}

const each = (what: NamedThing, names: readonly string[]): AskedName[] =>
  names.map((name) => ({ what, name }));

const inCondition = (condition: Condition | null): AskedName[] => {
  if (condition === null) return [];
  if ('all' in condition) return condition.all.flatMap(inCondition);
  if ('any' in condition) return condition.any.flatMap(inCondition);
  if ('not' in condition) return inCondition(condition.not);
  switch (condition.fact) {
    case 'finding':
      return each('check', [condition.check]);
    case 'no-finding':
      return [...each('check', condition.exceptChecks), ...each('pack', condition.packs ?? [])];
    case 'step':
      return each('step', condition.steps);
    case 'steps':
      return each('step', condition.except);
    case 'conditions':
      return each('channel', condition.channels);
    case 'moved':
      return each('channel', [condition.channel]);
    default:
      return [];
  }
};

const ofSteps = ({ steps, holdPoints }: Pack): Asking[] => [
  ...steps.map(
    ({ name, after, behind, when, answeredIf, undoneIf, cautionsFor }, index): Asking => ({
      by: `step ${name}`,
      path: ['steps', index],
      names: [
        ...each('step', after),
        ...each('hold point', behind === null ? [] : [behind]),
        ...[when, answeredIf, undoneIf].flatMap(inCondition),
        ...each(
          'component',
          cautionsFor.flatMap(({ components }) => components),
        ),
      ],
    }),
  ),
  ...holdPoints.map(
    ({ id, when, clearWhen }, index): Asking => ({
      by: `hold point ${id}`,
      path: ['hold-points', index],
      names: [when, clearWhen].flatMap(inCondition),
    }),
  ),
];

/** What holds a vehicle and what forbids an act: of a name that is nowhere nothing would be held or forbidden. */
const ofSafety = ({ always, rechecks, dangers, actUses, asks }: Pack): Asking[] => [
  {
    by: 'the list always',
    path: ['always'],
    names: each(
      'channel',
      // The lamp and the code list are read as channels are, and are none.
      (always ?? []).filter((name) => name !== 'lamp' && name !== 'codes'),
    ),
  },
  { by: 'the list rechecks', path: ['rechecks'], names: each('check', rechecks) },
  ...dangers.map(
    ({ of }, index): Asking => ({
      by: 'a danger',
      path: ['dangers', index],
      names: statedDangers.includes(of as StatedDanger) ? [] : each('check', [of]),
    }),
  ),
  ...actUses.map(
    ({ act, tests, steps }, index): Asking => ({
      by: `act ${act}`,
      path: ['act-uses', index],
      names: [...each('test', tests), ...each('step', steps)],
    }),
  ),
  ...asks.map(
    ({ id, channels, when }, index): Asking => ({
      by: `ask ${id}`,
      path: ['asks', index],
      names: [...each('channel', channels), ...inCondition(when)],
    }),
  ),
];

const ofSuspects = ({ evidence, suspects, tests }: Pack): Asking[] => [
  ...evidence.map(
    ({ base, sources, follows }, index): Asking => ({
      by: `evidence ${base}`,
      path: ['evidence', index],
      names: [
        ...sources.flatMap((source) => {
          if (source.kind === 'finding') return each('check', [source.check]);
          return source.kind === 'corners' ? each('check', source.checks) : [];
        }),
        ...each('group of evidence', follows),
      ],
    }),
  ),
  ...suspects.map(
    ({ id, raisedBy }, index): Asking => ({
      by: `suspect ${id}`,
      path: ['suspects', index],
      names: each('component', raisedBy),
    }),
  ),
  ...tests.map(
    ({ id, depends }, index): Asking => ({
      by: `test ${id}`,
      path: ['tests', index],
      names: each('component', depends ?? []),
    }),
  ),
];

/** Everything that a pack asks of packs by name, and what of it asks. */
export const askedNames = (pack: Pack): Asking[] => [
  ...ofSteps(pack),
  ...ofSafety(pack),
  ...ofSuspects(pack),
];
