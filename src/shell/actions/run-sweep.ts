import type { Command } from 'commander';
import type { Problem } from '../../input/problem.ts';
import { renderProblems } from '../../report/problems.ts';
import { makeStyle } from '../../report/style.ts';
import { isFolder } from '../disk/on-disk.ts';
import { systemTools, type WatchTools } from '../disk/watch-tools.ts';
import { gathered } from '../disk/write-whole.ts';
import type { Io } from '../io.ts';
import { reportOptions } from '../look.ts';
import { readFailure } from '../read-failure.ts';
import { exitCodes, type Shell } from '../shell.ts';
import { shopFileName } from '../shop-file.ts';
import { withShownPaths } from '../shown-path.ts';
import { type FoundJobs, findJobs, readList } from '../sweep/find-jobs.ts';
import { limitInlining } from '../sweep/limit-inlining.ts';
import { openBefore } from '../sweep/open-before.ts';
import { pieces, type SweepFlags, writeFiles } from '../sweep/printing.ts';
import { memoryPath } from '../sweep/remembered-night.ts';
import { type Swept, sweepJobs } from '../sweep/sweep-jobs.ts';

/** In bytes: room for a million paths. */
const longestList = 1 << 26;

/** What is wrong for all jobs: told once, and nothing is judged, written or remembered. */
const refuseAll = (problems: readonly Problem[], flags: SweepFlags, { io, finish }: Shell): void => {
  const style = makeStyle(reportOptions(flags, null, io));
  io.stderr.write(renderProblems(shopFileName, withShownPaths(problems, io.cwd), style));
  io.stderr.write(`\n${style.text('No job was judged.')}\n`);
  finish(exitCodes.wrongInput);
};

/** The files that the arguments lead to; ends the call where one leads to nothing, or all of them to none. */
const foundFor = async (
  paths: readonly string[],
  listed: readonly string[],
  flags: SweepFlags,
  command: Command,
  cwd: string,
): Promise<FoundJobs> => {
  const found = await findJobs(paths, listed, cwd);
  if (found.missing.length > 0)
    command.error(`error: there is no file or folder ${found.missing.join(', ')}; no job was judged`);
  if (found.files.length === 0 && !flags.shard)
    command.error(`error: there is no YAML file in ${[...paths, ...listed].join(', ') || 'the list'}`);
  return found;
};

/** The paths of a list on standard input; ends the call where it is longer than any. */
const pathsListed = async ({ readStdin }: Io, command: Command): Promise<string[]> => {
  try {
    return readList(new TextDecoder().decode(await readStdin(longestList)));
  } catch (error) {
    return command.error(`error: ${readFailure(error, '-').message}`);
  }
};

/** Prints a sweep and writes what is to be written of it. */
const tell = (swept: Swept, flags: SweepFlags, memory: string | null, shell: Shell): void => {
  const { io, finish } = shell;
  if (!flags.quiet) gathered(pieces(swept, flags.format, flags), io.stdout);
  const { stopped } = swept;
  if (stopped) {
    const kept = flags.out.length > 0 || memory !== null ? '; the files to write are as they were' : '';
    io.stderr.write(`cornerwise: stopped with ${stopped.done} of ${stopped.of} files judged${kept}\n`);
    finish(swept.exitCode);
    return;
  }
  const unread = (io.stdout.failure?.() ?? null) !== null;
  const kept = swept.isTrusted && !unread ? memory : null;
  if (memory !== null && kept === null)
    io.stderr.write('cornerwise: this night is not remembered, since not all of it could be seen\n');
  finish(writeFiles(swept, flags, kept, shell) ? swept.exitCode : exitCodes.fault);
};

/** `cornerwise sweep`: judges all jobs, compares with an earlier sweep, prints and writes files. */
export const sweep = async (
  names: readonly string[],
  flags: SweepFlags,
  command: Command,
  shell: Shell,
  tools: Pick<WatchTools, 'onStop'> = systemTools,
): Promise<void> => {
  const { io } = shell;
  limitInlining();
  const paths = names.filter((name) => name !== '-');
  const listed = paths.length < names.length ? await pathsListed(io, command) : [];
  const found = await foundFor(paths, listed, flags, command, io.cwd);
  const memory = flags.remember
    ? memoryPath([...paths, ...listed], flags.shard ?? null, io.cwd, isFolder)
    : null;
  const before = flags.since ?? memory;
  const earlier = before === null ? null : openBefore(before, before === memory, shell, command);
  try {
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
        strict: flags.strict ?? false,
        earlier,
      },
      shell,
      tools,
    );
    if ('problems' in swept) refuseAll(swept.problems, flags, shell);
    else tell(swept, flags, memory, shell);
  } finally {
    earlier?.close();
  }
};
