import { isJudged, type JudgedRow, type Row, type UnjudgedRow } from '../../core/sweep/row.ts';
import { type Severity, severityOf } from '../../core/sweep/row-order.ts';
import { oneLine } from '../clean.ts';
import { cell, cut, displayWidth, fold } from '../columns.ts';
import type { Style } from '../style.ts';
import {
  changeText,
  counting,
  ending,
  endText,
  findingText,
  lastText,
  notClear,
  nowText,
  placeText,
  problemText,
  restText,
  warningsText,
} from '../words/sweep-words.ts';
import { shortFile, type TableLayout } from './table-layout.ts';

/** What is worst about a row, in five characters. */
export const marks: Readonly<Record<Severity, string>> = {
  'cannot-be-judged': 'ERROR',
  hold: 'HOLD',
  look: 'look',
  note: 'note',
  'not-clear': 'point',
  outstanding: 'steps',
  clear: 'clear',
};

/** Where what stands below a row begins. */
const indent = 6;

const paintedMark = (severity: Severity, { chalk }: Style): string => {
  const mark = marks[severity].padEnd(5);
  if (severity === 'hold' || severity === 'cannot-be-judged') return chalk.bold.magenta(mark);
  return severity === 'look' ? chalk.bold(mark) : mark;
};

const ellipsis = ({ options }: Style): string => (options.ascii ? '...' : '…');

/** A text whose end must not be lost: what stands before it is cut. */
const keepingEnd = (text: string, end: string, width: number, mark: string): string =>
  cut(text, width - displayWidth(end), mark) + end;

const findingCell = (row: JudgedRow, width: number, style: Style): string => {
  const [worst, ...more] = counting(row);
  const mark = ellipsis(style);
  if (!worst) return cell(style.text(restText(row)), width, mark);
  const end = more.length > 0 ? ` +${more.length}` : '';
  const whole = style.text(findingText(worst));
  // What it is about is worth less than the whole of its title.
  const close = worst.verdict === 'too-close' ? 'close: ' : '';
  const title = style.text(close + oneLine(worst.title));
  const fits = displayWidth(whole) + end.length <= width;
  return cell(keepingEnd(fits ? whole : title, end, width, mark), width, mark);
};

const nextCell = (row: Row, width: number, style: Style): string => {
  const [title, minutes] = nowText(row.now);
  const whole = style.text(title + minutes);
  return displayWidth(whole) <= width ? whole : cut(style.text(title), width, ellipsis(style));
};

const judgedHead = (row: JudgedRow, layout: TableLayout, style: Style): string => {
  const mark = ellipsis(style);
  const points = notClear(row).length;
  const file =
    layout.file === null ? [] : [cell(style.text(shortFile(row.file, layout.folder)), layout.file, mark)];
  return [
    paintedMark(severityOf(row), style),
    cell(String(row.daysOpen), 4, mark, true),
    cell(points > 0 ? String(points) : '', 3, mark, true),
    cell(style.text(oneLine(row.vehicle)), layout.vehicle, mark),
    ...file,
    findingCell(row, layout.finding, style),
    nextCell(row, layout.next, style),
  ].join(' ');
};

/** What stands below a job's line; what is loud has lines of its own. */
const judgedBelow = (row: JudgedRow, layout: TableLayout, style: Style) => {
  const { all } = style.options;
  const points = notClear(row);
  const ends = ending(row);
  const hasPlace =
    layout.file !== null && displayWidth(style.text(shortFile(row.file, layout.folder))) <= layout.file;
  return {
    loud: ends.filter(({ ended }) => ended).map((end) => endText(end, row.zone)),
    quiet: [
      hasPlace ? null : oneLine(row.file),
      row.status === 'waiting' && row.waitsFor.length === 0 ? 'waiting' : null,
      row.waitsFor.length > 0 ? `waits for ${row.waitsFor.map(oneLine).join('; ')}` : null,
      ...ends.filter(({ ended }) => !ended).map((end) => endText(end, row.zone)),
      all && points.length > 0 ? `not clear: ${points.join(', ')}` : null,
      changeText(row.change, all),
      warningsText(row, all),
    ].filter((part) => part !== null),
  };
};

const unjudgedHead = (row: UnjudgedRow, layout: TableLayout, width: number, style: Style) => {
  const mark = ellipsis(style);
  const [problem] = row.problems;
  const place = style.text(problem ? placeText(row.file, problem) : oneLine(row.file));
  const room = width - indent - layout.next - 1;
  const fits = displayWidth(place) <= room;
  const shown = fits ? place : style.text(oneLine(row.file.replace(/^.*[/\\]/u, '')));
  const line = [
    paintedMark('cannot-be-judged', style),
    cell(shown, room, mark),
    nextCell(row, layout.next, style),
  ].join(' ');
  return { line, place: fits ? null : place };
};

/** What stands below, in the room that the line has left where it fits there. */
const together = (head: string, size: number, quiet: readonly string[], style: Style): string[] => {
  const { width } = style.options;
  if (quiet.length === 0) return [head.trimEnd()];
  const joined = style.text(quiet.join(' · '));
  if (size + 3 + displayWidth(joined) <= width)
    return [`${head.trimEnd()}${style.text(' · ')}${joined}`.trimEnd()];
  return [head.trimEnd(), ...fold(joined, width, indent, indent + 2)];
};

/** One row as people read it: a line, and below it only what it cannot hold. */
export const tableRow = (row: Row, layout: TableLayout, style: Style): string[] => {
  const { chalk, options, text } = style;
  const before = options.width - layout.next;
  const size = before + displayWidth(nextCell(row, layout.next, style));
  if (isJudged(row)) {
    const { loud, quiet } = judgedBelow(row, layout, style);
    return [
      ...together(judgedHead(row, layout, style), size, quiet, style),
      ...loud
        .flatMap((one) => fold(text(one), options.width, indent, indent + 2))
        .map((line) => chalk.bold(line)),
    ];
  }
  const { line, place } = unjudgedHead(row, layout, options.width, style);
  const said = [
    place,
    problemText(row.problems),
    lastText(row.last),
    changeText(row.change, options.all),
  ].filter((part) => part !== null);
  return together(line, size, said, style);
};
