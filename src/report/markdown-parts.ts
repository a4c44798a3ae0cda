import { oneLine } from './clean.ts';

/** Text of others, in which no character marks anything up. */
export const plain = (text: string): string => oneLine(text).replace(/[\\`*_{}[\]<>#|~&]/gu, '\\$&');

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
