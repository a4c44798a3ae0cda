import { parseKey } from '../../core/key.ts';
import { oneLine } from '../clean.ts';
import { wrap } from '../sheet/grid.ts';
import type { Style } from '../style.ts';

/** Neighbours of one kind in one breath: `position.LF 2.48 V, RF 2.55 V`. */
const together = (echoes: readonly (readonly [name: string, echo: string])[]): string[] => {
  const parts: { base: string; text: string }[] = [];
  for (const [name, echo] of echoes) {
    const { base, corner } = parseKey(name);
    const last = parts.at(-1);
    const again = last?.base === base && (corner !== null || name === 'codes');
    if (last && again) last.text += `, ${corner === null ? '' : `${corner} `}${echo}`;
    else parts.push({ base, text: `${name} ${echo}` });
  }
  return parts.map(({ text }) => text);
};

/** What was written, as it was understood: a comma that became a dot shows here. */
export const writtenText = (
  head: string,
  echoes: readonly (readonly [name: string, echo: string])[],
  style: Style,
): string => {
  const { chalk, text, options } = style;
  const parts = together(echoes).map(oneLine);
  return [
    ...wrap(text(oneLine(head)), options.width).map((line) => chalk.bold(line)),
    ...(parts.length > 0 ? wrap(text(parts.join(' · ')), options.width, 2) : []),
  ].join('\n');
};
