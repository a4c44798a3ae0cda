import type { Finding } from '../core/finding.ts';
import { mayLeave } from '../core/outlook/may-leave.ts';
import type { Worksheet } from '../core/worksheet.ts';
import type { Problem } from '../input/problem.ts';
import type { Result } from './json/json.ts';
import { code, plain, table } from './markdown-parts.ts';
import { percentText } from './next/advice-condition.ts';
import { headText } from './now/now-lines.ts';
import { limitsText, valueAndSpreadText } from './numbers.ts';
import { comparisonHeads, comparisonRows } from './sheet/comparison.ts';
import { label, shownFindings } from './sheet/findings.ts';
import { general } from './sheet/footer.ts';
import { reasonLines } from './sheet/hold-points.ts';
import { cautionTexts, waitsText } from './sheet/steps.ts';
import { summary } from './sheet/summary.ts';
import type { ReportOptions } from './style.ts';
import { timeText } from './times.ts';
import { commandText } from './words/command-words.ts';
import { saysText } from './words/finding-words.ts';
import { mayLeaveText } from './words/leave-words.ts';
import { nowReasons } from './words/now-words.ts';
import { noticeText } from './words/reason-words.ts';

const section = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ['', `### ${title}`, '', ...lines];

const findingCells = (finding: Finding, options: ReportOptions): string[] => {
  const { measured, limits, checkTitle, subject, state } = finding;
  return [
    label(finding),
    checkTitle,
    [subject, state ?? ''].join(' ').trim(),
    measured ? valueAndSpreadText(measured, options) : '',
    limits && measured ? limitsText(limits, measured.unit, options) : '',
    saysText(finding, options),
  ];
};

const stepLines = (sheet: Worksheet): string[] =>
  sheet.steps
    .filter(({ state }) => state === 'ready' || state === 'waiting')
    .map((step, index) => {
      const waits = waitsText(step, sheet);
      const after = waits === null ? '' : `; ${waits}`;
      return `${index + 1}. ${plain(`${step.title}, ${Math.round(step.minutes)} min${after}`)}`;
    });

const holdPointLines = ({ holdPoints, job }: Worksheet, all: boolean): string[] =>
  holdPoints.flatMap(({ title, clear, holds, reasons }) => [
    `- ${plain(title)}: ${clear ? 'clear' : holds ? '**not clear**' : 'a reminder, which holds nothing'}`,
    ...(clear ? [] : reasonLines(reasons, job.zone, all).map((line) => `  - ${plain(line)}`)),
  ]);

/** Suspects that are likelier than one in twenty. */
const suspectCells = ({ ranking }: Worksheet): string[][] =>
  (ranking?.suspects ?? [])
    .filter(({ probability }) => probability >= 0.05)
    .map(({ title, probability }) => [title, percentText(probability)]);

/** Whether the vehicle may leave, and what to do now: why, what to heed before it, and the line to type after it. */
const glanceLines = (sheet: Worksheet, file: string): string[] => {
  const { now, job } = sheet;
  const why = nowReasons(now, job.zone);
  return [
    '',
    `**${plain(mayLeaveText(mayLeave(sheet), job.zone, Number.POSITIVE_INFINITY))}**`,
    '',
    `**${plain(headText(now))}**`,
    ...(why === '' ? [] : ['', plain(why)]),
    ...now.cautions.flatMap((caution) => ['', `**CAUTION:** ${plain(caution)}`]),
    ...(now.command === null ? [] : ['', code(commandText(now.command, file))]),
  ];
};

const sheetLines = (file: string, sheet: Worksheet, options: ReportOptions): string[] => {
  const { job, asOf, packs, findings, warnings } = sheet;
  const shown = shownFindings(findings, options.all);
  const missing = findings.filter(
    ({ verdict, wanted, newest }) => verdict === 'not-taken' && wanted && newest,
  );
  const suspects = suspectCells(sheet);
  const compared = sheet.beforeAfter ? comparisonRows(sheet.beforeAfter, options, options.all) : [];
  const versions = packs.map(({ id, version }) => `${id} ${version}`).join(', ');
  return [
    `## ${plain([job.vehicle.name, job.id, job.title].join(' · '))}`,
    '',
    plain(`Status ${job.status}; judged as of ${timeText(asOf, job.zone)} ${job.zone}, with ${versions}.`),
    ...glanceLines(sheet, file),
    ...warnings.flatMap((warning) => ['', plain(noticeText(warning, job.zone))]),
    '',
    plain(`Findings: ${summary(findings)}`),
    ...section(
      'Findings',
      shown.length === 0
        ? []
        : table(
            ['verdict', 'what', 'where', 'reading', 'should be', 'meaning'],
            shown.map((finding) => findingCells(finding, options)),
          ),
    ),
    ...section(
      'Before the work against after',
      compared.length === 0 ? [] : table(comparisonHeads, compared),
    ),
    ...section(
      'Not taken',
      missing.map(({ checkTitle, subject }) => `- ${plain(`${checkTitle} (${subject})`)}`),
    ),
    ...section('Suspects', suspects.length === 0 ? [] : table(['suspect', 'probability'], suspects)),
    ...section('Steps outstanding, in order', stepLines(sheet)),
    ...section(
      'Cautions',
      cautionTexts(sheet).map((caution) => `- ${plain(caution)}`),
    ),
    ...section('Hold points', holdPointLines(sheet, options.all)),
    '',
    plain(general),
    '',
  ];
};

const problemLines = (file: string, problems: readonly Problem[]): string[] => [
  `## ${plain(file)}: cannot be judged`,
  '',
  ...problems.map(({ message, hint, line, column, file: other }) => {
    const place = line === null ? '' : `:${line}${column === null ? '' : `:${column}`}`;
    return `- ${plain(`${other ?? file}${place}: ${message}${hint === null ? '' : `; ${hint}`}`)}`;
  }),
  '',
];

/** Every job as a part of one Markdown text, in the tables of GitHub's dialect; files that cannot be judged, too. */
export const renderMarkdown = (results: readonly (Result & { readonly options: ReportOptions })[]): string =>
  results
    .map((result) =>
      (result.sheet
        ? sheetLines(result.file, result.sheet, result.options)
        : problemLines(result.file, result.problems ?? [])
      ).join('\n'),
    )
    .join('\n');
