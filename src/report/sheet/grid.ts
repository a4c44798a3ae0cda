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

/** Wraps a text between words; lines after the first are indented. */
export const wrap = (text: string, width: number, indent = 0): string[] => {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const room = width - (lines.length > 0 ? indent : 0);
    if (line !== '' && line.length + 1 + word.length > room) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  lines.push(line);
  return lines.map((each, index) => (index === 0 ? each : `${' '.repeat(indent)}${each}`));
};
