import { displayWidth } from '../columns.ts';

const joined = (items: readonly string[], left: number, between: string): string =>
  [...items, ...(left > 0 ? [`and ${left} more`] : [])].join(between);

/** As many items as fit into so many columns, the first in any case; the rest are counted. */
export const fitting = (items: readonly string[], width: number, between = '; '): string => {
  for (let taken = items.length; taken > 1; taken -= 1) {
    const line = joined(items.slice(0, taken), items.length - taken, between);
    if (displayWidth(line) <= width) return line;
  }
  return joined(items.slice(0, 1), items.length - 1, between);
};
