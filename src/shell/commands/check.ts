import { type Command, Option } from 'commander';
import { formats } from '../../report/formats.ts';
import type { WatchTools } from '../disk/watch-tools.ts';
import type { CheckFlags } from '../judgement.ts';
import { addLookOptions, asOfOption, failOnOption, rulesOption } from '../options.ts';
import type { Shell } from '../shell.ts';

interface Flags extends CheckFlags {
  readonly watch?: boolean;
}

const help = `
FILE is a job file, a pattern such as "jobs/*.yaml", or - for standard input.

With --watch the files are judged again each time that one of them, its shop
file or a named rule folder is saved, until Ctrl-C, which ends with the exit
code of the last judgement. A terminal is cleared before each sheet; elsewhere
a line with the time comes between two. --format ndjson gives a line for each
file at each judgement; json, csv and markdown, one document each, cannot be
watched.

--compare BEFORE AFTER, after the files, puts two snapshots of a job side by
side: what each channel read, how far it changed with the uncertainty of that,
and what its checks make of either. Without it a job that was worked on shows
what was read before the work against what was read after it.

--format csv has a line for each finding (all of them, as in JSON) and each
problem of a file, by RFC 4180; text that a spreadsheet would run as a formula
begins with an apostrophe. --format markdown is the worksheet for a wiki or a
ticket.

Exit codes: 0 nothing out at the fail level, 1 something is, 2 a file or the
call is wrong (the other files are judged all the same), 3 a fault in the
program itself. Hold points do not set the exit code.`;

/** Why a call cannot be watched, or null. */
const unwatchable = (names: readonly string[], { format }: Flags): string | null => {
  if (names.includes('-')) return '--watch needs files, and - is standard input, which is read once';
  if (format !== 'table' && format !== 'ndjson')
    return `--watch cannot give one ${format} document; --format ndjson gives a line a judgement`;
  return null;
};

/** Why a call cannot compare, or null. */
const incomparable = ({ compare, format }: Flags): string | null => {
  if (compare === undefined) return null;
  if (compare.length !== 2)
    return `--compare wants two snapshots after the files: --compare BEFORE AFTER; ${compare.length} given`;
  return format === 'csv' || format === 'markdown' ? `--compare cannot be printed as ${format}` : null;
};

/** `cornerwise check FILE…`: the main job. */
export const addCheck = (program: Command, shell: Shell, tools?: WatchTools): void => {
  const command = program
    .command('check')
    .summary('Judge job files: findings, steps outstanding, hold points.')
    .description(
      'Judge job files: whether the vehicle may leave, what to do now, what is out, and what is still to be done.',
    )
    .argument('<FILE...>', 'job files')
    .addOption(new Option('--format <format>', 'how to print it').choices([...formats]).default('table'))
    .addOption(asOfOption())
    .addOption(rulesOption())
    .addOption(failOnOption())
    .option('--all', 'also show what is within, done or superseded, and the basis of each limit')
    .option('--compare <snapshots...>', 'two snapshots side by side, and nothing else: BEFORE AFTER')
    .option('--quiet', 'print nothing but errors; the exit code tells')
    .option('--watch', 'judge again at each save, until Ctrl-C');
  addLookOptions(command)
    .addHelpText('after', help)
    .action(async (names: string[], flags: Flags) => {
      const wrong = (flags.watch ? unwatchable(names, flags) : null) ?? incomparable(flags);
      if (wrong !== null) command.error(`error: ${wrong}`);
      const { check, checkAndWatch } = await import('../actions/actions.ts');
      return flags.watch ? checkAndWatch(names, flags, shell, tools) : check(names, flags, shell);
    });
};
