import { clean, oneLine } from '../clean.ts';
import { wrap } from '../sheet/grid.ts';
import type { Style } from '../style.ts';

/** Something that a command could not do, and what to do about it. */
export interface Fault {
  /** The word of the command line that is wrong; absent where it is not about one. */
  readonly typed?: string;
  readonly message: string;
  readonly hint: string | null;
}

const shortened = (typed: string): string => (typed.length > 60 ? `${typed.slice(0, 60)}…` : typed);

/** What is wrong with an answer, below its question. */
export const faultBelow = ({ message, hint }: Fault, { text, options }: Style): string => {
  const said = hint === null ? message : `${message}; ${hint}`;
  return `${wrap(text(oneLine(said)), options.width, 4, 6).join('\n')}\n`;
};

/** Faults of a command line, each with what to type instead. */
export const renderFaults = (faults: readonly Fault[], style: Style): string => {
  const { chalk, text, options } = style;
  return faults
    .map(({ typed, message, hint }) => {
      const head = typed === undefined || typed.trim() === '' ? message : `${shortened(typed)}: ${message}`;
      const lines = wrap(`cornerwise: ${oneLine(clean(head))}`, options.width, 0, 2);
      const help = hint === null ? [] : wrap(oneLine(clean(hint)), options.width, 2, 4);
      return text(
        `${lines
          .map((line) => chalk.bold(line))
          .concat(help)
          .join('\n')}\n`,
      );
    })
    .join('');
};
