import { scalarText } from './scalar-text.ts';
import type { Value } from './value.ts';

/** A value in brackets or braces, on one line. */
export const inline = (value: Value, quoted = false): string => {
  switch (value.kind) {
    case 'text':
      return scalarText(value.text, quoted);
    case 'bare':
      return value.text;
    case 'list':
      return `[${value.items.map((item) => inline(item, quoted)).join(', ')}]`;
    case 'map':
      return `{${value.entries.map(([key, item]) => `${keyText(key, quoted)}: ${inline(item, quoted)}`).join(', ')}}`;
  }
};

const keyText = (key: string, quoted: boolean): string => scalarText(key, quoted);

/** Whether a value takes lines of its own; with nothing in it, it has none to take. */
const standsInLines = (value: Value): boolean => {
  if (value.kind === 'map') return value.style === 'block' && value.entries.length > 0;
  return value.kind === 'list' && value.style === 'block' && value.items.length > 0;
};

/** `key: value` as lines whose first is not indented, and whose others are by `indent`. */
export const entryLines = (key: string, value: Value, indent: number): string[] => {
  const below = ' '.repeat(indent + 2);
  if (!standsInLines(value)) return [`${keyText(key, false)}: ${inline(value)}`];
  const content = contentLines(value, indent + 2);
  return [`${keyText(key, false)}:`, `${below}${content[0] ?? ''}`, ...content.slice(1)];
};

/** A value as it stands after its indent; lines after the first bring theirs along. */
export const contentLines = (value: Value, indent: number): string[] => {
  const own = ' '.repeat(indent);
  if (!standsInLines(value)) return [inline(value)];
  if (value.kind === 'map') {
    return value.entries.flatMap(([key, item], index) => {
      const lines = entryLines(key, item, indent);
      return index === 0 ? lines : [`${own}${lines[0] ?? ''}`, ...lines.slice(1)];
    });
  }
  if (value.kind === 'list') {
    return value.items.flatMap((item, index) => {
      const [first = '', ...more] = contentLines(item, indent + 2);
      return [`${index === 0 ? '' : own}- ${first}`, ...more];
    });
  }
  return [inline(value)];
};
