import { basename, dirname, resolve } from 'node:path';
import type { FailLevel } from '../../core/level.ts';
import { clean } from '../../report/clean.ts';
import type { SweepFormat } from '../../report/sweep/sweep-formats.ts';
import { sweepRenderers } from '../../report/sweep/sweep-renderers.ts';
import { clearLeft } from '../disk/left-behind.ts';
import { writeWhole } from '../disk/write-whole.ts';
import type { LookFlags } from '../look.ts';
import type { Shell } from '../shell.ts';
import { sealed } from './earlier.ts';
import type { rowStates } from './filters.ts';
import type { Shard } from './shard.ts';
import type { Target } from './sweep-arguments.ts';
import type { Swept } from './sweep-jobs.ts';

/** What a call of `sweep` asks for. */
export interface SweepFlags extends LookFlags {
  readonly format: SweepFormat;
  readonly out: readonly Target[];
  readonly asOf?: string;
  readonly rules: readonly string[];
  readonly failOn?: FailLevel;
  readonly state?: readonly (typeof rowStates)[number][];
  readonly waitingFor?: string;
  readonly olderThan?: number;
  readonly endingWithin: number;
  readonly since?: string;
  readonly remember?: boolean;
  readonly onlyChanged?: boolean;
  readonly cache: boolean;
  readonly shard?: Shard;
  readonly strict?: boolean;
  readonly quiet?: boolean;
}

const forMachines: ReadonlySet<SweepFormat> = new Set(['json', 'ndjson', 'csv']);
const withAll: ReadonlySet<SweepFormat> = new Set(['json', 'ndjson']);

/** An output, piece by piece. */
export const pieces = (swept: Swept, format: SweepFormat, flags: SweepFlags): Iterable<string> => {
  const which = flags.onlyChanged && !withAll.has(format) ? 'changed' : 'wanted';
  const order = forMachines.has(format) ? 'by-file' : 'worst-first';
  return sweepRenderers[format](swept.rendering(order, which, flags));
};

/** Writes the files of a call; false where one could not be written. */
export const writeFiles = (
  swept: Swept,
  flags: SweepFlags,
  memory: string | null,
  { io }: Shell,
): boolean => {
  // A file is looked at for itself: a board that shows only what changed would be empty on most mornings.
  const plain = { ...flags, color: false, onlyChanged: false };
  const files: [string, () => Iterable<string>][] = [
    ...flags.out.map(({ format, file }): [string, () => Iterable<string>] => [
      file,
      () => pieces(swept, format, plain),
    ]),
    ...(memory === null
      ? []
      : [
          [memory, () => sealed(sweepRenderers.ndjson(swept.rendering('by-file', 'all', plain)))] as [
            string,
            () => Iterable<string>,
          ],
        ]),
  ];
  let written = true;
  for (const [file, make] of files) {
    try {
      const path = resolve(io.cwd, file);
      clearLeft(dirname(path), basename(path));
      writeWhole(path, make());
    } catch (error) {
      const { code, message } = error as NodeJS.ErrnoException;
      if (code === undefined) throw error;
      io.stderr.write(`cornerwise: ${clean(file)} could not be written (${clean(code ?? message)})\n`);
      written = false;
    }
  }
  return written;
};
