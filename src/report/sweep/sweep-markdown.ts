import { isJudged, type JudgedRow, type Row, type UnjudgedRow } from '../../core/sweep/row.ts';
import { severityOf } from '../../core/sweep/row-order.ts';
import { plain, table, tableHead, tableRow } from '../markdown-parts.ts';
import { general } from '../sheet/footer.ts';
import {
  bySeverity,
  changeText,
  ending,
  endText,
  headingText,
  lastText,
  notClear,
  nothingText,
  noticeText,
  nowText,
  otherTotals,
  placeText,
  problemText,
  severityWords,
  stoppedText,
  warningsText,
  worstText,
} from '../words/sweep-words.ts';
import type { SweepRenderer, SweepRendering } from './rendering.ts';

const heads = [
  'worst',
  'vehicle',
  'file',
  'days open',
  'finding',
  'hold points not clear',
  'now',
  'waits for',
];

/** Cells beside those that every row has. */
const judgedCells = (row: JudgedRow, all: boolean) => ({
  vehicle: row.vehicle,
  file: row.file,
  days: String(row.daysOpen),
  finding: worstText(row),
  points: notClear(row).join(', '),
  waits: row.waitsFor.length === 0 && row.status === 'waiting' ? 'waiting' : row.waitsFor.join('; '),
  ends: [...ending(row).map((end) => endText(end, row.zone)), warningsText(row, all) ?? ''],
});

const unjudgedCells = ({ file, problems, last }: UnjudgedRow) => ({
  vehicle: '',
  file: problems[0] ? placeText(file, problems[0]) : file,
  days: '',
  finding: [problemText(problems), lastText(last)].filter((one) => one !== null).join('; '),
  points: '',
  waits: '',
  ends: [],
});

const rowCells = (row: Row, compared: boolean, all: boolean): string[] => {
  const one = isJudged(row) ? judgedCells(row, all) : unjudgedCells(row);
  return [
    severityWords[severityOf(row)],
    one.vehicle,
    one.file,
    one.days,
    one.finding,
    one.points,
    nowText(row.now).join(''),
    one.waits,
    one.ends.filter((end) => end !== '').join('; '),
    ...(compared ? [changeText(row.change, all) ?? ''] : []),
  ];
};

const totalLines = (rendering: SweepRendering): string[] => {
  const stopped = stoppedText(rendering);
  return [
    ...bySeverity(rendering).map(([severity, count]) => `- ${plain(severityWords[severity])}: ${count}`),
    ...otherTotals(rendering).map(([name, says]) => `- ${plain(`${name}: ${says}`)}`),
    ...(stopped === null ? [] : ['', `**${plain(stopped)}**`]),
    ...rendering.notices.flatMap((notice) => ['', `**${plain(noticeText(notice))}**`]),
  ];
};

const lines = (texts: readonly string[]): string => texts.map((text) => `${text}\n`).join('');

/** The sweep as one Markdown text, with the tables of GitHub's dialect. */
export function* renderSweepMarkdown(rendering: Parameters<SweepRenderer>[0]): Generator<string> {
  const { rows, gone, compared, options } = rendering;
  yield lines([`## ${plain(headingText(rendering))}`, '', ...totalLines(rendering), '']);
  let empty = true;
  for (const row of rows) {
    if (empty) {
      yield lines(['### Jobs, worst first', '']);
      yield lines(tableHead([...heads, 'ends', ...(compared ? ['changed'] : [])]));
    }
    empty = false;
    yield lines([tableRow(rowCells(row, compared, options.all))]);
  }
  if (empty && gone.length === 0) yield lines([plain(nothingText(rendering))]);
  if (gone.length > 0) {
    const cells = gone.map(({ file, vehicle, title, change }) => [
      ...[vehicle ?? '', file, title ?? ''],
      change.says.join('; '),
    ]);
    yield lines([...(empty ? [] : ['']), '### Gone since the earlier sweep', '']);
    yield lines(table(['vehicle', 'file', 'title', 'why'], cells));
  }
  yield lines(['', plain(general)]);
}
