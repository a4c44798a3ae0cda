import { counts, type Finding } from '../../core/finding.ts';
import type { Compared, Worksheet } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import { suspectsBrief } from '../next/brief.ts';
import { nowLines } from '../now/now-lines.ts';
import type { Style } from '../style.ts';
import { timeText } from '../times.ts';
import { noticeText } from '../words/reason-words.ts';
import { beforeAfterTable, comparisonTable } from './comparison.ts';
import { cornersTable } from './corners.ts';
import { findingsTable, shownFindings } from './findings.ts';
import { wrap } from './grid.ts';
import { holdPointsList } from './hold-points.ts';
import { leadsList } from './leads.ts';
import { notTakenList } from './not-taken-lines.ts';
import { cautionsList, stepsList } from './steps.ts';

export const general =
  'All limits here are general. The vehicle maker’s service information, local codes and licensed practice come first.';

/** What every report ends with: whose word comes first. */
export const footer = ({ chalk, text, options }: Style): string =>
  chalk.dim(wrap(text(general), options.width).join('\n'));

/** Which job it is, when and with what it was judged. */
export const heading = ({ job, asOf, packs }: Worksheet, style: Style): string => {
  const { chalk, text, options } = style;
  const status = job.status === 'open' ? [] : [job.status];
  // A job without a complaint is titled by its vehicle.
  const title = job.title === job.vehicle.name ? [] : [job.title];
  const name = [job.vehicle.name, job.id, ...title, ...status].map(oneLine).join(' · ');
  const versions = packs.map(({ id, version }) => `${id} ${version}`).join(', ');
  const judged = `judged as of ${timeText(asOf, job.zone)} ${job.zone}, with ${versions}`;
  return [
    ...wrap(text(name), options.width).map((line) => chalk.bold(line)),
    ...wrap(text(judged), options.width).map((line) => chalk.dim(line)),
  ].join('\n');
};

/** One line that says how it stands before any table does. */
export const summary = (findings: readonly Finding[]): string => {
  const out = findings.filter(counts);
  const of = (weight: string): number => out.filter((finding) => finding.weight === weight).length;
  const newest = findings.filter((finding) => finding.newest);
  const close = newest.filter(({ verdict }) => verdict === 'too-close').length;
  const within = newest.filter(({ verdict, stale }) => verdict === 'within' && !stale).length;
  const stale = newest.filter((finding) => finding.stale && !finding.moment).length;
  const missing = newest.filter(({ verdict, wanted }) => verdict === 'not-taken' && wanted).length;
  const waived = findings.filter(
    ({ waived: by, verdict, newest: now }) => by !== null && now && verdict === 'out',
  ).length;
  const nothing = newest.every(({ verdict }) => verdict === 'not-taken')
    ? 'nothing judged yet'
    : 'nothing out';
  const byWeight = (['hold', 'look', 'note'] as const)
    .filter((weight) => of(weight) > 0)
    .map((weight) => `${of(weight)} ${weight}`);
  const parts = [
    out.length === 0 ? nothing : `out: ${byWeight.join(', ')}`,
    ...(waived > 0 ? [`accepted by a waiver: ${waived}`] : []),
    ...(close > 0 ? [`too close to call: ${close}`] : []),
    ...(missing > 0 ? [`not taken: ${missing}`] : []),
    ...(stale > 0 ? [`not read again since the work: ${stale}`] : []),
    `within: ${within}`,
  ];
  return parts.join(' · ');
};

/** What of the job was left out, assumed, or understood in one of two ways. */
export const warningLines = ({ warnings, job }: Worksheet, { options, text }: Style): string[] =>
  warnings.flatMap((warning) => wrap(text(oneLine(noticeText(warning, job.zone))), options.width, 0, 2));

const otherStates = ({ options, text }: Style): string =>
  wrap(text('They were read in two states, so that what differs need not be the work.'), options.width).join(
    '\n',
  );

/**
 * The whole worksheet of one job, for people.
 *
 * @param file the job file as it was named, for the line to type
 */
export const renderWorksheet = (sheet: Worksheet, file: string, style: Style): string => {
  const { chalk, text, options } = style;
  const shown = shownFindings(sheet.findings, options.all);
  const sections = [
    [heading(sheet, style), ...warningLines(sheet, style)].join('\n'),
    nowLines(sheet, file, style),
    [
      ...wrap(text(`Findings: ${summary(sheet.findings)}`), options.width, 0, 2).map((line) =>
        chalk.bold(line),
      ),
      ...(shown.length > 0 ? [findingsTable(shown, style)] : []),
    ].join('\n'),
    leadsList(sheet.job, style),
    beforeAfterTable(sheet.beforeAfter, style),
    cornersTable(sheet, style),
    suspectsBrief(sheet, style),
    notTakenList(sheet.findings, style),
    stepsList(sheet, style),
    cautionsList(sheet, style),
    holdPointsList(sheet, style),
    footer(style),
  ];
  return `${sections.filter((section) => section !== null).join('\n\n')}\n`;
};

/** Two snapshots of a job side by side, and nothing else. */
export const renderCompared = (
  sheet: Worksheet,
  { before, after, comparison }: Compared,
  style: Style,
): string => {
  const title = `${before.id} (${before.state}) against ${after.id} (${after.state})`;
  const sections = [
    heading(sheet, style),
    comparisonTable(title, comparison, style, true),
    ...(before.state === after.state ? [] : [otherStates(style)]),
    footer(style),
  ];
  return `${sections.join('\n\n')}\n`;
};
