import { kindOf } from '../core/checks/kinds/index.ts';
import type { Basis } from '../core/finding.ts';
import type { Check, Pack } from '../core/pack.ts';
import { oneLine } from './clean.ts';
import { evidenceLines, howText, suspectPageLines } from './pack-suspects.ts';
import { breakable, grid, wrap } from './sheet/grid.ts';
import type { Style } from './style.ts';

const counted = (count: number, thing: string): string[] =>
  count === 0 ? [] : [`${count} ${thing}${count === 1 ? '' : 's'}`];

/** The widest column of names of packs; longer names are broken. */
const widestName = 22;

/** The widest column of what packs hold. */
const widestHolds = 36;

/** Widths of name, version, what it holds and title: the last two share what the others leave. */
const listColumns = (packs: readonly Pack[], width: number): number[] => {
  const longest = (texts: readonly string[]): number => Math.max(...texts.map(({ length }) => length));
  const name = Math.min(widestName, longest(['pack', ...packs.map(({ id }) => id)]));
  const version = longest(['version', ...packs.map((pack) => pack.version)]);
  const left = width - name - version - 6;
  const holds = Math.min(widestHolds, Math.floor(left / 2));
  return [name, version, holds, left - holds];
};

/** Every pack on a line, or on a few where there is no room. */
export const packList = (packs: readonly Pack[], style: Style): string => {
  const { chalk, options, text } = style;
  const columns = listColumns(packs, options.width);
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
    ].map((cell, place) => breakable(text(cell), columns[place] ?? 0)),
  );
  const heads = ['pack', 'version', 'holds', 'title'].map((head) => chalk.dim(head));
  return `${grid([heads, ...rows], columns)}\n`;
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
    ...wrap(`${check.id}  (${check.kind}${where})`, width, 2, 6),
    ...wrap(`${oneLine(check.title)}${conditions.length > 0 ? `; ${conditions.join('; ')}` : ''}`, width, 6),
    ...kindOf(check)
      .limits(check.parameters)
      .flatMap((line) => wrap(`${line}`, width, 6, 8)),
    ...wrap(`basis: ${basisText(check.basis)}`, width, 6, 8),
  ];
};

/** A hash in one line, or in two halves. */
const hashLines = (hash: string, width: number): string[] => {
  const head = 'sha256 ';
  if (head.length + hash.length <= width) return [head + hash];
  const half = hash.length / 2;
  return [head + hash.slice(0, half), ' '.repeat(head.length) + hash.slice(half)];
};

/** All that a pack holds, for people. */
export const packPage = (pack: Pack, style: Style): string => {
  const { chalk, text, options } = style;
  const { width } = options;
  const section = (title: string, lines: readonly string[]): string[] =>
    lines.length === 0 ? [] : ['', chalk.bold(title), ...lines];
  const lines = [
    ...wrap(`${pack.id} ${pack.version}  ${pack.title}`, width, 0, 2).map((line) => chalk.bold(line)),
    ...hashLines(pack.sha256, width),
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
