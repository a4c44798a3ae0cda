import { oneLine } from './clean.ts';

/** Text of others, in which no character marks anything up. */
export const plain = (text: string): string => oneLine(text).replace(/[\\`*_{}[\]<>#|~&]/gu, '\\$&');

/** Text of others to be copied, as code: the fence is longer than any within it. */
export const code = (text: string): string => {
  const line = oneLine(text);
  const longest = Math.max(0, ...(line.match(/`+/gu) ?? []).map(({ length }) => length));
  const fence = '`'.repeat(longest + 1);
  const gap = longest > 0 ? ' ' : '';
  return `${fence}${gap}${line}${gap}${fence}`;
};

const cells = (row: readonly string[]): string => `| ${row.join(' | ')} |`;

/** The first two lines of a table in GitHub's dialect. */
export const tableHead = (heads: readonly string[]): string[] => [
  cells(heads),
  cells(heads.map(() => '---')),
];

/** A line of it; what its cells say marks nothing up. */
export const tableRow = (row: readonly string[]): string => cells(row.map(plain));

/** A whole table. */
export const table = (heads: readonly string[], rows: readonly (readonly string[])[]): string[] => [
  ...tableHead(heads),
  ...rows.map(tableRow),
];
