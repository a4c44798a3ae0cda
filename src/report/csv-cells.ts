import { oneLine } from './clean.ts';

export type Cell = string | number | boolean | null;

/** A spreadsheet would run text that begins like this as a formula. */
const formula = /^[=+\-@]/u;

/** One cell by RFC 4180: on one line, and in quotes where it holds a comma or a quote. */
const cellText = (cell: Cell): string => {
  if (typeof cell !== 'string') return cell === null ? '' : String(cell);
  const line = oneLine(cell);
  const text = formula.test(line) ? `'${line}` : line;
  return /[",]/u.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};

/** The head and the lines of a file with these columns, by RFC 4180; what a line leaves out stays empty. */
export const csvLines = <Column extends string>(columns: readonly Column[]) => ({
  head: `${columns.join(',')}\r\n`,
  line: (cells: Readonly<Partial<Record<Column, Cell>>>): string =>
    `${columns.map((column) => cellText(cells[column] ?? null)).join(',')}\r\n`,
});
