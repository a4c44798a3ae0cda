import { type Command, Option } from 'commander';
import { sweepFormats } from '../../report/sweep/sweep-formats.ts';
import type { WatchTools } from '../disk/watch-tools.ts';
import { addLookOptions, asOfOption, failOnOption, rulesOption } from '../options.ts';
import type { Shell } from '../shell.ts';
import { rowStates } from '../sweep/filters.ts';
import type { SweepFlags } from '../sweep/printing.ts';
import { days, shard, states, target } from '../sweep/sweep-arguments.ts';

const help = `
PATH is a folder (all YAML files at or below it that look like jobs), a job
file, a pattern such as "jobs/*.yaml", or - for a list of paths on standard
input, one a line (or separated by zero bytes, as "find -print0" gives them).
Closed jobs are left out unless --state asks for them.

Every night, with a page for the board and a line for each job that changed:
  cornerwise sweep jobs --remember --only-changed --out html=board.html

--since FILE names what an earlier sweep wrote with --out ndjson=FILE; a FILE
that does not exist yet is no mistake, and the same FILE may be written again.
--remember does the same with a hidden file beside the jobs. A finding is known
by its check, place and state, so that edits that change nothing change
nothing. --only-changed leaves out of what is printed what did not change; json,
ndjson and all files that are written have every job.

--shard 2/8 judges the second eighth of the files, by a hash of their names as
printed; the ndjson of all shards together is that of one sweep.

What was judged is kept in the user's cache folder, by the content of the job,
the shop file and the packs, and is judged again when any of them, the program
or the clock makes a difference. --no-cache does without the cache.

Exit codes: 0 nothing out at the fail level, 1 something is, or a file cannot
be judged (with --strict 2), 2 the sweep as a whole cannot be trusted: a wrong
call, folder or shop file, or no rule packs; nothing is remembered then. 3 a
fault in the program, or output that could not be written, 130 stopped by
Ctrl-C: what was done is printed, files that --out or --remember name are left
as they were. --format monitor is one line with
performance data; codes 0 to 3 mean OK, WARNING, CRITICAL and UNKNOWN there.`;

/** `cornerwise sweep PATH…`: every open job, one line each, and what changed. */
export const addSweep = (program: Command, shell: Shell, tools?: Pick<WatchTools, 'onStop'>): void => {
  const command = program
    .command('sweep')
    .summary('Judge all open jobs: one line each, what changed since last time.')
    .description(
      'Judge every open job below some folders: one line each with the worst first, what to do next, what it waits for, what ends soon, and what changed since last time.',
    )
    .argument('<PATH...>', 'folders, job files, patterns, or - for a list')
    .addOption(new Option('--format <format>', 'how to print it').choices([...sweepFormats]).default('table'))
    .addOption(
      new Option('--out <format=file>', 'also write it to a file (may be repeated)')
        .argParser(target)
        .default([], 'none'),
    )
    .addOption(
      new Option('--since <file>', 'tell what changed since the ndjson of an earlier sweep').conflicts(
        'remember',
      ),
    )
    .option('--remember', 'tell what changed since last time, and keep this time beside the jobs')
    .option('--only-changed', 'print only jobs that changed; files have all')
    .addOption(
      new Option(
        '--state <status>',
        `only jobs of a status: ${rowStates.join(', ')} (may be repeated)`,
      ).argParser(states),
    )
    .option('--waiting-for <text>', 'only jobs that wait for somebody or something with this in its name')
    .addOption(
      new Option('--older-than <days>', 'only jobs open for more days than this, such as 14 or 2w').argParser(
        days,
      ),
    )
    .addOption(
      new Option('--ending-within <days>', 'list access and waivers that end within so many days')
        .argParser(days)
        .default(7),
    )
    .addOption(asOfOption())
    .addOption(rulesOption())
    .addOption(failOnOption())
    .addOption(new Option('--shard <k/n>', 'only the k-th of n parts of the files').argParser(shard))
    .option('--strict', 'exit code 2 where a file cannot be judged, not 1')
    .option('--no-cache', 'judge every job again, and keep nothing')
    .option('--quiet', 'print nothing but errors; the exit code tells');
  addLookOptions(command)
    .addHelpText('after', help)
    .action(async (names: string[], flags: SweepFlags) => {
      if (flags.onlyChanged && flags.since === undefined && !flags.remember)
        command.error('error: --only-changed needs --since FILE or --remember');
      const { sweep } = await import('../actions/actions.ts');
      return sweep(names, flags, command, shell, tools);
    });
};
