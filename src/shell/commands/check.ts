import { type Command, Option } from 'commander';
import { type FailLevel, failLevels, fails } from '../../core/level.ts';
import { renderProblems } from '../../report/problems.ts';
import { type Format, formats, renderers } from '../../report/renderers.ts';
import { makeStyle } from '../../report/style.ts';
import { findFiles } from '../find-files.ts';
import { type Judged, judgeFile, libraryCache } from '../judge-file.ts';
import {
  type AsOf,
  addLookOptions,
  asOfOption,
  type LookFlags,
  reportOptions,
  rulesOption,
} from '../options.ts';
import { exitCodes, type Shell } from '../shell.ts';

interface Flags extends LookFlags {
  readonly format: Format;
  readonly asOf?: AsOf;
  readonly rules: readonly string[];
  readonly failOn?: FailLevel;
  readonly quiet?: boolean;
}

const help = `
FILE is a job file, a pattern such as "jobs/*.yaml", or - for standard input.

Exit codes: 0 nothing out at the fail level, 1 something is, 2 a file or the
call is wrong (the other files are judged all the same), 3 a fault in the
program itself. Hold points do not set the exit code.`;

const exitCode = (judged: readonly Judged[], flag: FailLevel | undefined) => {
  if (judged.some(({ sheet }) => sheet === null)) return exitCodes.wrongInput;
  const found = judged.some(
    ({ sheet, shop }) => sheet && fails(sheet.findings, flag ?? shop?.failOn ?? 'hold'),
  );
  return found ? exitCodes.found : exitCodes.clear;
};

const check = async (
  names: readonly string[],
  flags: Flags,
  { io, version, finish }: Shell,
): Promise<void> => {
  const now = io.now();
  const asOf: AsOf = flags.asOf ?? (() => now);
  const libraries = libraryCache();
  const judged: Judged[] = [];
  for (const file of await findFiles(names, io.cwd)) {
    judged.push(await judgeFile(file, { asOf, rules: flags.rules }, io, libraries));
  }
  const results = judged.map((one) => ({ ...one, options: reportOptions(flags, one.shop, io) }));
  const firstZone = judged.find(({ sheet }) => sheet !== null)?.sheet?.job.zone ?? 'UTC';
  if (!flags.quiet)
    io.stdout.write(renderers[flags.format]({ results, asOf: asOf(firstZone) ?? now, version }));
  // Machine output carries its problems itself, unless it is not printed at all.
  if (flags.format === 'table' || flags.quiet) {
    for (const { file, problems, options } of results) {
      if (problems) io.stderr.write(renderProblems(file, problems, makeStyle(options)));
    }
  }
  finish(exitCode(judged, flags.failOn));
};

/** `cornerwise check FILE…`: the main job. */
export const addCheck = (program: Command, shell: Shell): void => {
  const command = program
    .command('check')
    .summary('Judge job files: findings, steps outstanding, hold points.')
    .description(
      'Judge job files: what is out, what was not taken, the steps still outstanding and the hold points.',
    )
    .argument('<FILE...>', 'job files')
    .addOption(new Option('--format <format>', 'how to print it').choices([...formats]).default('table'))
    .addOption(asOfOption())
    .addOption(rulesOption())
    .addOption(
      new Option(
        '--fail-on <level>',
        'the weight at which findings set exit code 1 (default: the shop file, else hold)',
      ).choices([...failLevels]),
    )
    .option('--all', 'show what is within, done or superseded, and every basis, too')
    .option('--quiet', 'print nothing but errors; the exit code tells');
  addLookOptions(command)
    .addHelpText('after', help)
    .action((names: string[], flags: Flags) => check(names, flags, shell));
};
