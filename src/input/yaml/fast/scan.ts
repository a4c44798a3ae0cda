/** Where a fast reading stands. It is thrown away at the first thing that is not known with certainty. */
export interface Scan {
  /**
   * Always with a line feed as its last character, so that no reader need look whether the text goes on; to ask for a
   * character behind the last would also make an engine take its slow form of asking from then on.
   */
  readonly text: string;
  /** Where the text as it was given ends. */
  readonly end: number;
  /** Offset of what is read next. */
  at: number;
  /** Column of the next content, or -1 at the end of the text; set by the readers of line ends. */
  column: number;
  /** Where what belongs to the value read last ends: its line, and comments indented further than it. */
  after: number;
  /** The furthest indent of the comments since then that belong to nothing yet; -1 where there are none. */
  loose: number;
  /** Collections that are open. */
  depth: number;
  /** Values read so far. */
  values: number;
}

export const newline = 0x0a;
export const carriageReturn = 0x0d;
export const space = 0x20;
export const hash = 0x23;
export const colon = 0x3a;
export const comma = 0x2c;
export const dash = 0x2d;
export const singleQuote = 0x27;
export const doubleQuote = 0x22;
export const openBracket = 0x5b;
export const closeBracket = 0x5d;
export const openBrace = 0x7b;
export const closeBrace = 0x7d;

/** Fewer than the pieces that the other parser bears: a value and its key are several. */
export const mostValues = 25_000;

/** Half of what the other parser bears, which counts more than collections. */
const deepest = 32;

export const startScan = (text: string): Scan => ({
  text: text.endsWith('\n') ? text : `${text}\n`,
  end: text.length,
  at: 0,
  column: 0,
  after: 0,
  loose: -1,
  depth: 0,
  values: 0,
});

/** Whether a line ends where a code unit stands; a carriage return is known to stand before a line feed. */
export const isLineEnd = (code: number): boolean => code === newline || code === carriageReturn;

/** Notes that a collection opens, or says that there are too many. */
export const opens = (scan: Scan): boolean => {
  scan.depth += 1;
  return scan.depth <= deepest;
};
