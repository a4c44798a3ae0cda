import { kindOf } from '../core/checks/kinds/index.ts';
import type { Basis } from '../core/finding.ts';
import type { Check, Pack } from '../core/pack.ts';
import { oneLine } from './clean.ts';
import { evidenceLines, howText, suspectPageLines } from './pack-suspects.ts';
import { grid, wrap } from './sheet/grid.ts';
import type { Style } from './style.ts';

const counted = (count: number, thing: string): string[] =>
  count === 0 ? [] : [`${count} ${thing}${count === 1 ? '' : 's'}`];

/** Every pack on a line. */
export const packList = (packs: readonly Pack[], style: Style): string => {
  const { chalk, options, text } = style;
  const rows = packs.map(({ id, version, title, checks, steps, holdPoints, suspects, tests }) =>
    [
      id,
      version,
      [
        ...counted(checks.length, 'check'),
        ...counted(steps.length, 'step'),
        ...counted(holdPoints.length, 'hold point'),
        ...counted(suspects.length, 'suspect'),
        ...counted(tests.length, 'test'),
      ].join(', '),
      oneLine(title),
    ].map((cell) => text(cell)),
  );
  const heads = ['pack', 'version', 'holds', 'title'].map((head) => chalk.dim(head));
  return `${grid([heads, ...rows], [22, 9, 36, Math.max(20, options.width - 75)])}\n`;
};

export const basisText = ({ kind, source }: Basis): string =>
  source === null ? kind : `${kind} (${source})`;

const perText = { vehicle: '', corner: ' (each corner)', either: ' (once, or each corner)' } as const;

const checkLines = (check: Check, width: number): string[] => {
  const conditions = [
    ...Object.entries(check.needs).map(([name, word]) => `wants ${name} ${word}`),
    ...Object.entries(check.unless).map(([name, word]) => `not with ${name} ${word}`),
    ...Object.entries(check.only).map(([name, words]) => `for ${name} ${words.join(' or ')}`),
    ...(check.layouts ? [`for ${check.layouts.join(', ')}`] : []),
    ...(check.wanted === 'in-test' ? ['read only in a test'] : []),
  ];
  const where = check.unit === null ? '' : ` in ${check.states.join(', ')}`;
  return [
    `  ${check.id}  (${check.kind}${where})`,
    ...wrap(`${oneLine(check.title)}${conditions.length > 0 ? `; ${conditions.join('; ')}` : ''}`, width, 6),
    ...kindOf(check)
      .limits(check.parameters)
      .flatMap((line) => wrap(`${line}`, width, 6, 8)),
    ...wrap(`basis: ${basisText(check.basis)}`, width, 6, 8),
  ];
};

/** All that a pack holds, for people. */
export const packPage = (pack: Pack, style: Style): string => {
  const { chalk, text, options } = style;
  const { width } = options;
  const section = (title: string, lines: readonly string[]): string[] =>
    lines.length === 0 ? [] : ['', chalk.bold(title), ...lines];
  const lines = [
    chalk.bold(`${pack.id} ${pack.version}  ${pack.title}`),
    `sha256 ${pack.sha256}`,
    ...wrap(`changes: ${oneLine(pack.changes)}`, width, 0, 2),
    ...section(
      'Channels',
      pack.channels.flatMap(({ id, title, unit, by, depends, per }) =>
        wrap(
          `${id}${perText[per]}, ${unit}, by ${by}: ${title}; depends on ${depends.join(', ')}`,
          width,
          2,
          6,
        ),
      ),
    ),
    ...section(
      'Checks',
      pack.checks.flatMap((check) => checkLines(check, width)),
    ),
    ...section(
      'Steps',
      pack.steps.flatMap(({ name, title, minutes, needs, after, points }) => [
        ...wrap(`${name}: ${title} (${minutes} min${needs === null ? '' : `, needs ${needs}`})`, width, 2, 6),
        ...(after.length > 0 ? wrap(`after ${after.join(', ')}`, width, 6, 8) : []),
        ...points.flatMap((point) => wrap(`- ${oneLine(point)}`, width, 6, 8)),
      ]),
    ),
    ...section(
      'Hold points',
      pack.holdPoints.flatMap(({ id, title }) => wrap(`${id}: ${title}`, width, 2, 6)),
    ),
    ...section('Evidence', evidenceLines(pack.evidence, width)),
    ...section('Suspects', suspectPageLines(pack, width)),
    ...section(
      'Tests',
      pack.tests.flatMap(({ id, perCorner, title, minutes, brings, outcomes, points, how }) => [
        ...wrap(
          `${id}${perCorner ? ' (each corner)' : ''}: ${title} (${minutes} min${brings > 0 ? ` and ${brings} min of work after it` : ''})`,
          width,
          2,
          6,
        ),
        ...points.flatMap((point) => wrap(`- ${oneLine(point)}`, width, 6, 8)),
        ...outcomes.flatMap((outcome, place) => [
          ...wrap(`${outcome.id}: ${oneLine(outcome.title)}`, width, 6, 8),
          ...((how[place]?.length ?? 0) > 0 ? wrap(howText(how[place]), width, 8, 10) : []),
        ]),
      ]),
    ),
    ...section(
      'Cautions',
      pack.cautions.flatMap(({ text: caution }) => wrap(`${oneLine(caution)}`, width, 2, 4)),
    ),
  ];
  return `${text(lines.join('\n'))}\n`;
};
