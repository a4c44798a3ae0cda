import type { Output } from './generated/output.ts';

/** Something wrong with a text, where it stands and what to do about it. */
export interface Problem {
  /** What kind of mistake it is, such as `unknown-key`. */
  readonly code: string;
  readonly message: string;
  /** What to write instead. */
  readonly hint: string | null;
  /** Counted from 1; null where the whole file is at fault. */
  readonly line: number | null;
  readonly column: number | null;
  /** The line as it stands in the text. */
  readonly lineText: string | null;
  /** The file at fault where it is not the one that was read: a rule pack, the shop file. */
  readonly file: string | null;
  /** How many more there are than are told; only the last one bears it. */
  readonly more?: number;
}

/** A version of a rule pack. */
export interface PackVersion {
  readonly id: string;
  readonly version: string;
}

/** A rule pack that a job is judged by, and the hash of its bytes. */
export interface UsedPack extends PackVersion {
  readonly sha256: string;
}

/** What a shop is opened with; all of it can be left out. */
export interface ShopOptions {
  /** The shop file's text. */
  readonly text?: string | Uint8Array;
  /** Its path: its rule folders are looked for from there, and its problems bear it. Default: `cornerwise.yaml`. */
  readonly file?: string;
  /** More rule folders, which come before those of the shop file. The packs that ship always come last. */
  readonly folders?: readonly string[];
}

/** What jobs are read against: the shop's own file, and the rule packs at hand. */
export interface Shop {
  /** What is wrong with the shop file; while something is, no job can be read. */
  readonly problems: readonly Problem[];
  /** Every version of every pack at hand, the newest of each first. */
  readonly packs: () => Promise<readonly PackVersion[]>;
  /**
   * Finds, reads and prepares packs ahead of the jobs that name them (`id@range`); such jobs share the work.
   *
   * @returns what is wrong with the names or the packs
   */
  readonly preparePacks: (names: readonly string[]) => Promise<readonly Problem[]>;
  /** Reads a job against the packs that it names, else those of the shop file, else all at hand. */
  readonly readJob: (text: string | Uint8Array, options?: JobOptions) => Promise<ReadJob>;
}

/** What is known of a job beside its text. */
export interface JobOptions {
  /** Its file, which names a job without a name and stands in the lines to type. Default: `job.yaml`. */
  readonly file?: string;
  /** The time zone where neither the job nor the shop file names one. Default: `UTC`. */
  readonly zone?: string;
  /** When it was last saved, for a job without any day in it. Default: now. */
  readonly savedAt?: Date;
}

/** A job, or all that is wrong with its text and packs. */
export type ReadJob =
  | { readonly job: Job; readonly problems: readonly [] }
  | { readonly job: null; readonly problems: readonly Problem[] };

/** A job that was read and can be judged. */
export interface Job {
  readonly id: string;
  readonly title: string;
  /** What the shop calls the vehicle. */
  readonly vehicle: string;
  readonly status: 'open' | 'waiting' | 'closed';
  readonly zone: string;
  readonly packs: readonly UsedPack[];
  /** Judges the job as it stood at an instant. The same instant gives the same worksheet. */
  readonly assess: (asOf: Date) => Assessment;
}

/** A worksheet, or why there can be none. */
export type Assessment =
  | { readonly worksheet: Worksheet; readonly problems: readonly [] }
  | { readonly worksheet: null; readonly problems: readonly Problem[] };

/** How heavy a finding must be to count. */
export type FailLevel = 'hold' | 'look' | 'never';

/** What is said of one job at one instant. */
export interface Worksheet {
  readonly asOf: Date;
  /** Whether the vehicle may leave; `not-judged` where nothing holds it and no pack of the job has a release. */
  readonly verdict: 'may-leave' | 'do-not-release' | 'do-not-drive' | 'not-judged';
  /** Everything at full precision: the member of `jobs` that `check --format json` prints. */
  readonly data: () => JudgedJob;
  /** Whether something is out at a level, for which `check` ends with 1. Default: the shop file's level, else `hold`. */
  readonly fails: (level?: FailLevel) => boolean;
  /** The sheet for reading, as `check` prints it. */
  readonly text: (look?: Look) => string;
  /** The sheet for a wiki or a ticket, as `check --format markdown` prints it. */
  readonly markdown: (look?: Pick<Look, 'all'>) => string;
  /** The document that `check --format json` prints, of this job alone. */
  readonly json: () => string;
}

/** How a text is to look. */
export interface Look {
  /** Columns, from 60 on. Default: 80. */
  readonly width?: number;
  /** Default: none. */
  readonly colour?: boolean;
  /** Plain ASCII only. */
  readonly ascii?: boolean;
  /** Everything, as `check --all`. */
  readonly all?: boolean;
}

/** A job in machine output. */
export type JudgedJob = Extract<Output['jobs'][number], { readonly job: string }>;
export type Finding = JudgedJob['findings'][number];
export type Step = JudgedJob['steps'][number];
export type HoldPoint = JudgedJob['holdPoints'][number];
export type Suspect = JudgedJob['suspects'][number];

/** A JSON Schema (draft 7). */
export type Schema = Readonly<Record<string, unknown>>;

export type SchemaName = 'job' | 'pack' | 'shop' | 'output' | 'sweep';
