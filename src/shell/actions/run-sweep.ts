import type { Command } from 'commander';
import { isFolder } from '../on-disk.ts';
import { exitCodes, type Shell } from '../shell.ts';
import { findJobs, readList } from '../sweep/find-jobs.ts';
import { limitInlining } from '../sweep/limit-inlining.ts';
import { openBefore } from '../sweep/open-before.ts';
import { gathered } from '../sweep/outputs.ts';
import { pieces, type SweepFlags, writeFiles } from '../sweep/printing.ts';
import { memoryPath } from '../sweep/remembered-night.ts';
import { sweepJobs } from '../sweep/sweep-jobs.ts';
import { systemTools, type WatchTools } from '../watch-tools.ts';

/** `cornerwise sweep`: judges all jobs, compares with an earlier sweep, prints and writes files. */
export const sweep = async (
  names: readonly string[],
  flags: SweepFlags,
  command: Command,
  shell: Shell,
  tools: Pick<WatchTools, 'onStop'> = systemTools,
): Promise<void> => {
  const { io, finish } = shell;
  limitInlining();
  if (flags.workers !== undefined)
    io.stderr.write('cornerwise: --workers is ignored, since a sweep runs in one thread\n');
  const paths = names.filter((name) => name !== '-');
  const listed = paths.length < names.length ? readList(new TextDecoder().decode(await io.readStdin())) : [];
  const found = await findJobs(paths, listed, io.cwd);
  if (found.files.length === 0 && !flags.shard) {
    command.error(`error: there is no YAML file in ${names.join(', ')}`);
  }
  const memory = flags.remember
    ? memoryPath([...paths, ...listed], flags.shard ?? null, io.cwd, isFolder)
    : null;
  const before = flags.since ?? memory;
  const earlier = before === null ? null : openBefore(before, shell, command);
  const swept = await sweepJobs(
    {
      ...found,
      rules: flags.rules,
      asOf: flags.asOf ?? null,
      failOn: flags.failOn ?? null,
      filters: {
        states: flags.state ?? null,
        waitingFor: flags.waitingFor ?? null,
        olderThan: flags.olderThan ?? null,
      },
      withinDays: flags.endingWithin,
      shard: flags.shard ?? null,
      cache: flags.cache,
      earlier,
    },
    shell,
    tools,
  );
  try {
    if (!flags.quiet) gathered(pieces(swept, flags.format, flags), io.stdout);
    const { stopped } = swept;
    if (stopped) {
      const kept = flags.out.length > 0 || memory !== null ? '; the files to write are as they were' : '';
      io.stderr.write(`cornerwise: stopped with ${stopped.done} of ${stopped.of} files judged${kept}\n`);
      finish(swept.exitCode);
      return;
    }
    const written = writeFiles(swept, flags, memory, shell);
    const failed = !written && swept.exitCode !== exitCodes.fault;
    finish(failed ? exitCodes.wrongInput : swept.exitCode);
  } finally {
    earlier?.close();
  }
};
