import type { Io } from './io.ts';

/** The exit codes that scripts rely on; `stopped` is what shells give for Ctrl-C. */
export const exitCodes = { clear: 0, found: 1, wrongInput: 2, fault: 3, stopped: 130 } as const;
export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];

/** What a command is given: the surroundings, and where to leave its exit code. */
export interface Shell {
  readonly io: Io;
  readonly version: string;
  readonly finish: (code: ExitCode) => void;
}
