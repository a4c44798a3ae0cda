import { oneLine } from './clean.ts';
import { wrap } from './sheet/grid.ts';
import type { Style } from './style.ts';

/** One place of a file that an upgrade wrote anew. */
interface Line {
  /** Null for what was added. */
  readonly was: string | null;
  readonly is: string;
  /** The version under which a waiver accepted its check. */
  readonly acceptedUnder: string | null;
  readonly line: number;
}

const lineText = ({ was, is, line, acceptedUnder }: Line): string => {
  const change = was === null ? `added ${is}` : `${was} becomes ${is}`;
  const note =
    acceptedUnder === null
      ? ''
      : `; the waiver accepted it under ${acceptedUnder}, so that it is void if the check has changed`;
  return `line ${line}: ${change}${note}`;
};

/** What an upgrade of a file changed, or would change. */
export const upgradeText = (
  file: string,
  lines: readonly Line[],
  dryRun: boolean,
  { chalk, text, options }: Style,
): string => {
  const count = `${lines.length} ${lines.length === 1 ? 'change' : 'changes'}`;
  const done = dryRun ? `${count} to make; nothing was written` : `${count} written`;
  const head = lines.length === 0 ? 'names the newest packs already' : done;
  return `${[
    ...wrap(text(oneLine(`${file}: ${head}`)), options.width).map((line) => chalk.bold(line)),
    ...lines.flatMap((line) => wrap(text(oneLine(lineText(line))), options.width, 2, 4)),
  ].join('\n')}\n`;
};
