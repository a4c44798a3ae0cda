import Table from 'cli-table3';

/** No frames: columns apart by spaces, so that a table pastes well and reads aloud. */
const bare = {
  top: '',
  'top-mid': '',
  'top-left': '',
  'top-right': '',
  bottom: '',
  'bottom-mid': '',
  'bottom-left': '',
  'bottom-right': '',
  left: '',
  'left-mid': '',
  mid: '',
  'mid-mid': '',
  right: '',
  'right-mid': '',
  middle: '  ',
} as const;

type Cell = string | { readonly content: string; readonly colSpan?: number };

/** A table without frames; cells wrap between words at their column's width. */
export const grid = (rows: readonly (readonly Cell[])[], widths: readonly number[]): string => {
  const table = new Table({
    chars: bare,
    colWidths: [...widths],
    wordWrap: true,
    style: { 'padding-left': 0, 'padding-right': 0, head: [], border: [], compact: true },
  });
  for (const row of rows) table.push(row.map((cell) => (typeof cell === 'string' ? cell : { ...cell })));
  return table
    .toString()
    .split('\n')
    .map((line) => line.trimEnd())
    .join('\n');
};

/** A name with blanks at which a cell may break where it is longer than its column: no name is cut. */
export const breakable = (cell: string, width: number): string =>
  cell
    .split(' ')
    .map((word) => (word.length > width ? word.replaceAll(/([-.])(?=.)/gu, '$1 ') : word))
    .join(' ');

/** Wraps a text between words; the first line is indented by `first`, the others by `rest`. */
export const wrap = (text: string, width: number, first = 0, rest = first): string[] => {
  const lines: string[] = [];
  let line = ' '.repeat(first);
  let empty = true;
  for (const word of text.split(' ')) {
    if (!empty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = ' '.repeat(rest) + word;
    } else line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line];
};

/** Words that `wrap` is to leave on one line, such as a number and its unit; `released` makes them plain again. */
export const kept = (words: string): string => words.replaceAll(' ', '\u00a0');

/** A wrapped line with its plain blanks back. */
export const released = (line: string): string => line.replaceAll('\u00a0', ' ');
