import type { ProblemCode, programFault } from '../core/flaw.ts';
import { linesOf } from './yaml/lines.ts';

/** Something wrong with an input, where it stands and what to do about it. */
export interface Problem {
  readonly code: ProblemCode | typeof programFault;
  readonly message: string;
  readonly hint: string | null;
  /** Counted from 1; null where the whole file is at fault. */
  readonly line: number | null;
  readonly column: number | null;
  /** The offending line as it stands in the file, for showing under the message. */
  readonly lineText: string | null;
  /** The file at fault where it is not the one that was asked for (a rule pack, the shop file). */
  readonly file: string | null;
  /** How many more there are than are told; only the last one bears it. */
  readonly more?: number;
}

/** More problems of one file than anybody reads; the rest is counted. */
export const mostProblems = 500;

/** A flaw at an offset of a text; turned into a problem once all of them are known. */
export interface LocatedFlaw {
  readonly code: ProblemCode;
  readonly at: number;
  readonly message: string;
  readonly hint: string | null;
}

/** A problem with a file as a whole. */
export const wholeFile = (
  code: Problem['code'],
  message: string,
  hint: string | null,
  file: string | null = null,
): Problem => ({
  code,
  message,
  hint,
  line: null,
  column: null,
  lineText: null,
  file,
});

/**
 * A file's own flaws, parted by when they speak. What is wrong with the YAML itself explains what readers stumble
 * over at the same place, so it comes first; of a number a reader knows more, so it comes after.
 */
export const speakingOrder = (
  flaws: readonly LocatedFlaw[],
): { readonly first: readonly LocatedFlaw[]; readonly last: readonly LocatedFlaw[] } => {
  const ofNumber = ({ code }: LocatedFlaw): boolean => code === 'leading-zero' || code === 'number-not-plain';
  return { first: flaws.filter((flaw) => !ofNumber(flaw)), last: flaws.filter(ofNumber) };
};

/**
 * Flaws of different kinds at one place are one mistake, of which the first found speaks. What is missing from a
 * map is told at its beginning, where something else may be wrong, too.
 */
const withoutEchoes = (flaws: readonly LocatedFlaw[]): LocatedFlaw[] => {
  const spoken = new Map<number, string>();
  const told = new Set<string>();
  return flaws.filter(({ code, at, message }) => {
    const text = `${at} ${message}`;
    if (told.has(text)) return false;
    told.add(text);
    if (code === 'missing-key') return true;
    const first = spoken.get(at) ?? code;
    spoken.set(at, first);
    return first === code;
  });
};

/**
 * Turns flaws into problems with line, column and the offending line, in the order in which they stand in the text.
 * Where several are about one place, those found first come first.
 */
export const locate = (
  text: string,
  flaws: readonly LocatedFlaw[],
  file: string | null = null,
): Problem[] => {
  if (flaws.length === 0) return [];
  const lines = linesOf(text);
  const placed = ({ code, at, message, hint }: LocatedFlaw): Problem => {
    const line = lines.lineOf(at);
    const column = at - lines.startOf(line) + 1;
    return { code, message, hint, line, column, lineText: lines.textOf(line), file };
  };
  const sorted = withoutEchoes(flaws).sort((a, b) => a.at - b.at);
  const told = sorted.slice(0, mostProblems).map(placed);
  const [next] = sorted.slice(mostProblems);
  if (next === undefined) return told;
  const more = sorted.length - told.length;
  const message = `there ${more === 1 ? 'is 1 more problem' : `are ${more} more problems`} from here on`;
  return [...told, { ...placed(next), message, hint: 'correct the first ones, and check again', more }];
};
