import type { CommandShape, OptionShape } from './shape.ts';

/** Where the cursor stands on a line, and what stands before it. */
export interface Place {
  readonly command: CommandShape;
  /** The names of the command and those above it, without the program's: `packs show`. */
  readonly path: string;
  /** Arguments before the cursor that are neither options nor their values. */
  readonly given: readonly string[];
  /** Options before the cursor with their values, as typed. */
  readonly options: readonly { readonly flag: string; readonly value: string | null }[];
  /** The word at the cursor, as far as it is typed. */
  readonly typed: string;
  /** The option whose value is wanted. */
  readonly option: OptionShape | null;
  /** The part of the typed word that is the option itself, with `=`; empty where the value stands alone. */
  readonly optionPart: string;
  /** After `--` nothing is an option. */
  readonly optionsOver: boolean;
}

const find = (command: CommandShape, flag: string): OptionShape | null =>
  command.options.find(({ flags }) => flags.includes(flag)) ?? null;

interface Walk {
  command: CommandShape;
  path: string[];
  given: string[];
  options: { flag: string; value: string | null }[];
  pending: OptionShape | null;
  over: boolean;
}

const isOption = (word: string): boolean => word.startsWith('-') && word !== '-';

const stepOption = (walk: Walk, word: string): void => {
  if (word === '--') {
    walk.over = true;
    return;
  }
  const equals = word.indexOf('=');
  const flag = equals < 0 ? word : word.slice(0, equals);
  walk.options.push({ flag, value: equals < 0 ? null : word.slice(equals + 1) });
  const option = find(walk.command, flag);
  if (equals < 0 && option !== null && option.value !== null) walk.pending = option;
};

/** Whether a word is the value of the option before it: a value that may be left out is no option itself. */
const isValue = ({ pending }: Walk, word: string): boolean =>
  pending !== null && !(pending.optional && isOption(word));

const step = (walk: Walk, word: string): void => {
  if (isValue(walk, word)) {
    const last = walk.options.at(-1);
    if (last) last.value = word;
    walk.pending = null;
    return;
  }
  walk.pending = null;
  if (!walk.over && isOption(word)) {
    stepOption(walk, word);
    return;
  }
  const below = walk.given.length === 0 && walk.command.commands.find(({ name }) => name === word);
  if (below) {
    walk.command = below;
    walk.path.push(word);
  } else walk.given.push(word);
};

/**
 * Reads a line up to the cursor.
 *
 * @param words the program, the words after it, and last the word at the cursor, which may be empty
 */
export const placeOf = (words: readonly string[], program: CommandShape): Place => {
  const walk: Walk = { command: program, path: [], given: [], options: [], pending: null, over: false };
  for (const word of words.slice(1, -1)) step(walk, word);
  const typed = words.length > 1 ? (words.at(-1) ?? '') : '';
  const { command, path, given, options, over } = walk;
  const pending = isValue(walk, typed) ? walk.pending : null;
  const within = pending === null && !over && typed.startsWith('--') && typed.includes('=');
  const optionPart = within ? typed.slice(0, typed.indexOf('=') + 1) : '';
  return {
    command,
    path: path.join(' '),
    given,
    options,
    typed,
    option: within ? find(command, optionPart.slice(0, -1)) : pending,
    optionPart,
    optionsOver: over,
  };
};
