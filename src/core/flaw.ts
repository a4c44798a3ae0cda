/** A closed set: each code has a reproducer in tests/reproducers. */
export const problemCodes = [
  'file-not-found',
  'file-unreadable',
  'file-too-large',
  'not-utf8',
  'file-empty',
  'several-documents',
  'yaml-syntax',
  'too-deep',
  'too-many',
  'anchor-or-alias',
  'tag',
  'duplicate-key',
  'control-character',
  'number-not-plain',
  'unknown-key',
  'missing-key',
  'wrong-type',
  'wrong-value',
  'decimal-comma',
  'leading-zero',
  'not-a-number',
  'unknown-unit',
  'wrong-unit',
  'bad-reading',
  'unknown-corner',
  'unknown-channel',
  'unknown-instrument',
  'bad-time',
  'skipped-time',
  'unknown-zone',
  'duplicate-id',
  'bad-code',
  'unknown-name',
  'unknown-pack',
  'unknown-pack-version',
  'no-checks',
  'conflicting-packs',
  'step-cycle',
] as const;
export type ProblemCode = (typeof problemCodes)[number];

/** The problem of a file at which the program itself failed. */
export const programFault = 'program-fault';

/** Where in a parsed file something stands: keys and list positions from the top. */
export type Path = readonly (string | number)[];

/** Something wrong with a value of a parsed file; input adds line and column. */
export interface Flaw {
  readonly code: ProblemCode;
  readonly path: Path;
  /** True where the key is at fault, not the value behind it. */
  readonly atKey?: boolean;
  readonly message: string;
  /** What was expected, or what to do. */
  readonly hint: string | null;
  /** A word that is not one of these: the nearest is offered before the hint. */
  readonly typed?: { readonly word: string; readonly known: readonly string[] };
}
