import { isJudged, type JudgedRow, type Row, type UnjudgedRow } from '../../core/sweep/row.ts';
import { severityOf } from '../../core/sweep/row-order.ts';
import {
  changeText,
  ending,
  endText,
  lastText,
  notClear,
  nowText,
  placeText,
  problemText,
  severityWords,
  warningsText,
  worstText,
} from '../words/sweep-words.ts';
import { escaped } from './html-text.ts';

/** The heads of the columns; a phone shows them before what a cell says. */
export const columnHeads = [
  'Worst',
  'Vehicle and file',
  'Days open',
  'Finding',
  'Hold points not clear',
  'Next',
  'Waits, ends, changes',
] as const;

type Head = (typeof columnHeads)[number];

// Roles are given, since a table shown as blocks on a phone would lose its own.
const td = (head: Head, inner: string, kind = ''): string =>
  `<td role="cell" data-head="${head}"${kind}>${inner}</td>`;

const items = (texts: readonly string[]): string =>
  texts.length === 0 ? '' : `<ul>${texts.map((text) => `<li>${text}</li>`).join('')}</ul>`;

const mark = (row: Row): string => {
  const severity = severityOf(row);
  return `<td role="cell"><span class="mark ${severity}">${severityWords[severity]}</span></td>`;
};

const next = (row: Row): string => {
  const [title, minutes] = nowText(row.now);
  return td('Next', `${escaped(title)}${minutes === '' ? '' : `<small>${escaped(minutes)}</small>`}`);
};

const changed = (row: Row, all: boolean): string[] => {
  const text = changeText(row.change, all);
  return text === null ? [] : [escaped(text)];
};

const judgedNotes = (row: JudgedRow, all: boolean): string[] => {
  const ends = ending(row);
  const warned = warningsText(row, all);
  const waits = row.waitsFor.length > 0 ? `waits for ${row.waitsFor.join('; ')}` : 'waiting';
  return [
    ...ends
      .filter(({ ended }) => ended)
      .map((end) => `<strong class="loud">${escaped(endText(end, row.zone))}</strong>`),
    ...(row.waitsFor.length > 0 || row.status === 'waiting' ? [escaped(waits)] : []),
    ...ends.filter(({ ended }) => !ended).map((end) => escaped(endText(end, row.zone))),
    ...changed(row, all),
    ...(warned === null ? [] : [escaped(warned)]),
  ];
};

const header = (inner: string): string => `<th scope="row" role="rowheader">${inner}</th>`;

const judgedCells = (row: JudgedRow, all: boolean): string[] => [
  header(
    `${escaped(row.vehicle)}<br><small>${escaped(row.title)}</small><br><code>${escaped(row.file)}</code>`,
  ),
  td('Days open', String(row.daysOpen), ' class="number"'),
  td('Finding', escaped(worstText(row))),
  td('Hold points not clear', items(notClear(row).map(escaped))),
  next(row),
  td('Waits, ends, changes', items(judgedNotes(row, all))),
];

const unjudgedCells = (row: UnjudgedRow, all: boolean): string[] => {
  const [problem] = row.problems;
  return [
    header(`<code>${escaped(problem ? placeText(row.file, problem) : row.file)}</code>`),
    td('Days open', ''),
    td(
      'Finding',
      escaped([problemText(row.problems), lastText(row.last)].filter((one) => one !== null).join('; ')),
    ),
    td('Hold points not clear', ''),
    next(row),
    td('Waits, ends, changes', items(changed(row, all))),
  ];
};

/** One row of the board. */
export const htmlRow = (row: Row, all: boolean): string => {
  const cells = isJudged(row) ? judgedCells(row, all) : unjudgedCells(row, all);
  const kind = row.change === null ? '' : ` class="${row.change.kind}"`;
  return `<tr role="row"${kind}>${mark(row)}${cells.join('')}</tr>\n`;
};
