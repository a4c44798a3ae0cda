import { clean } from '../../report/clean.ts';
import { secondText } from '../../report/times.ts';
import { systemTools, type WatchTools } from '../disk/watch-tools.ts';
import { findFiles } from '../find-files.ts';
import type { Io } from '../io.ts';
import { type JobSources, readSources } from '../job-sources.ts';
import { type CheckFlags, exitCode, type Judgement, judgeAll, print } from '../judgement.ts';
import type { Shell } from '../shell.ts';
import { watch } from '../watch.ts';

/** `cornerwise check`: judges the files once. */
export const check = async (names: readonly string[], flags: CheckFlags, shell: Shell): Promise<void> => {
  const judgement = await judgeAll(await findFiles(names, shell.io.cwd), flags, shell.io);
  print(judgement, flags, shell);
  shell.finish(exitCode(judgement, flags.failOn));
};

/** What stands between one sheet and the next: nothing in machine output, a clear screen on a terminal. */
const separator = (
  { now, zone }: Judgement,
  again: boolean,
  flags: CheckFlags,
  { stdout, env }: Io,
): string => {
  if (flags.format !== 'table' || flags.quiet) return '';
  // What was on the screen stays where one can scroll back to it.
  if (stdout.isTerminal && env.TERM !== 'dumb') return '\u001b[H\u001b[2J';
  return again ? `\n--- ${secondText(now, zone)}, judged again ---\n\n` : '';
};

/** `cornerwise check --watch`: judges the files again at each save. */
export const checkAndWatch = async (
  names: readonly string[],
  flags: CheckFlags,
  shell: Shell,
  tools: WatchTools = systemTools,
): Promise<void> => {
  const { io, finish } = shell;
  let again = false;
  await watch<JobSources>(
    {
      look: () => readSources(names, flags.rules, io),
      judge: async (sources) => {
        const judgement = await judgeAll(sources.files, flags, sources.io);
        io.stdout.write(separator(judgement, again, flags, io));
        again = true;
        print(judgement, flags, shell);
        finish(exitCode(judgement, flags.failOn));
      },
      isLeft: () => io.stdout.isLeft?.() === true || (io.stdout.failure?.() ?? null) !== null,
      ready: ({ files }) =>
        io.stderr.write(`watching ${files.length} file${files.length === 1 ? '' : 's'}; Ctrl-C ends\n`),
      refused: (folder, error) => {
        const why = (error as NodeJS.ErrnoException).code ?? 'unknown fault';
        io.stderr.write(`cornerwise: ${clean(folder)} cannot be watched (${why})\n`);
      },
    },
    tools,
  );
  // What the terminal shows of Ctrl-C is not where the prompt should begin.
  if (io.stdout.isTerminal) io.stdout.write('\n');
};
