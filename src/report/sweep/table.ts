import type { GoneRow, Row } from '../../core/sweep/row.ts';
import { oneLine } from '../clean.ts';
import { cell, fold } from '../columns.ts';
import { footer } from '../sheet/footer.ts';
import { makeStyle, type Style } from '../style.ts';
import {
  bySeverity,
  headingText,
  many,
  nothingText,
  noticeText,
  otherTotals,
  severityWords,
  stoppedText,
} from '../words/sweep-words.ts';
import type { SweepRenderer, SweepRendering } from './rendering.ts';
import { layoutOf, looked, type TableLayout } from './table-layout.ts';
import { marks, tableRow } from './table-row.ts';

const folded = (text: string, style: Style, rest = 2): string[] =>
  fold(style.text(oneLine(text)), style.options.width, 0, rest);

const headLines = (rendering: SweepRendering, layout: TableLayout, rows: boolean, style: Style): string[] => {
  const { chalk } = style;
  const stopped = stoppedText(rendering);
  const parts = [
    headingText(rendering),
    layout.file !== null && layout.folder !== '' ? `files in ${layout.folder}` : '',
    rows ? 'pts: hold points not clear' : '',
  ];
  return [
    ...folded(parts.filter((part) => part !== '').join('; '), style),
    ...(stopped === null ? [] : folded(stopped, style)),
    ...rendering.notices.flatMap((notice) => folded(noticeText(notice), style)),
  ].map((line) => chalk.bold(line));
};

const columnHeads = (layout: TableLayout, { chalk }: Style): string =>
  chalk.dim(
    [
      'worst days pts',
      cell('vehicle', layout.vehicle, ''),
      ...(layout.file === null ? [] : [cell('file', layout.file, '')]),
      cell('worst finding', layout.finding, ''),
      'now',
    ].join(' '),
  );

const goneLines = ({ file, vehicle, title, change }: GoneRow, style: Style): string[] => {
  const name = [vehicle, title].filter((part) => part !== null).join(', ');
  const says = change.says.length > 0 ? `: ${change.says.join('; ')}` : '';
  return fold(
    style.text(oneLine(`gone  ${file}${name === '' ? '' : ` (${name})`}${says}`)),
    style.options.width,
    0,
    6,
  );
};

/** Marks that do not explain themselves. */
const explained: ReadonlySet<string> = new Set(['cannot-be-judged', 'not-clear', 'outstanding', 'clear']);

const totalLines = (rendering: SweepRendering, style: Style): string[] => {
  const by = bySeverity(rendering).map(
    ([severity, count]) =>
      `${marks[severity]} ${count}${explained.has(severity) ? ` (${severityWords[severity]})` : ''}`,
  );
  const stopped = stoppedText(rendering);
  const head = `${many(rendering.totals.files, 'job')}: ${by.join(' · ')}`;
  return [
    ...(by.length === 0 ? [] : folded(head, style)),
    ...folded(
      otherTotals(rendering)
        .map(([name, says]) => `${name}: ${says}`)
        .join(' · '),
      style,
    ).filter((line) => line !== ''),
    ...(stopped === null ? [] : folded(stopped, style).map((line) => style.chalk.bold(line))),
  ];
};

const text = (lines: readonly string[]): string => lines.map((line) => `${line}\n`).join('');

/** The first rows, to be looked at, and all rows one by one. */
const lookedAt = (rows: Iterable<Row>): { readonly first: readonly Row[]; readonly all: Iterable<Row> } => {
  const first: Row[] = [];
  const left = rows[Symbol.iterator]();
  while (first.length < looked) {
    const { value, done } = left.next();
    if (done) break;
    first.push(value);
  }
  return {
    first,
    all: (function* () {
      yield* first;
      for (let one = left.next(); !one.done; one = left.next()) yield one.value;
    })(),
  };
};

/** A line a job, the worst first, and what they come to, for people. */
export function* renderSweepTable(rendering: Parameters<SweepRenderer>[0]): Generator<string> {
  const style = makeStyle(rendering.options);
  const { first, all } = lookedAt(rendering.rows);
  const layout = layoutOf(first, style.options.width);
  yield text(headLines(rendering, layout, first.length > 0, style));
  if (first.length === 0 && rendering.gone.length === 0) yield text([style.text(nothingText(rendering))]);
  if (first.length > 0) yield text([columnHeads(layout, style)]);
  for (const row of all) yield text(tableRow(row, layout, style));
  for (const row of rendering.gone) yield text(goneLines(row, style));
  const totals = totalLines(rendering, style);
  yield `${totals.length > 0 ? '\n' : ''}${text(totals)}\n${footer(style)}\n`;
}
