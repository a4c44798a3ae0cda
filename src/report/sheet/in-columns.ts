import { displayWidth } from '../columns.ts';

const gap = '   ';

/** A cell as it is counted and as it is printed, which may be coloured. */
export interface ShownCell {
  readonly plain: string;
  readonly shown: string;
}

/** Cells in columns as wide as what is in them; no line ends with blanks. */
export const inColumns = (
  rows: readonly (readonly ShownCell[])[],
): { readonly lines: readonly string[]; readonly width: number } => {
  const count = Math.max(...rows.map(({ length }) => length));
  const widths = Array.from({ length: count }, (_, at) =>
    Math.max(...rows.map((row) => displayWidth(row[at]?.plain ?? ''))),
  );
  const lines = rows.map((row) =>
    row
      .map(({ plain, shown }, at) => {
        const blanks = at < row.length - 1 ? (widths[at] ?? 0) - displayWidth(plain) : 0;
        return shown + ' '.repeat(blanks);
      })
      .join(gap),
  );
  return { lines, width: widths.reduce((sum, width) => sum + width, gap.length * (count - 1)) };
};
