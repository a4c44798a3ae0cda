import { type Command, Option } from 'commander';
import type { NextFlags } from '../actions/run-next.ts';
import { addLookOptions, asOfOption, rulesOption } from '../options.ts';
import type { Shell } from '../shell.ts';

const help = `
Suspects are ranked from the findings, each group of them counted once, and from
the tests in the log. Points say how much each speaks for the first suspect
against its best rival: 3 double the odds, 10 make them tenfold. A test is worth
its minutes where it is expected to save more than it costs, looked at two tests
ahead. The likelihoods are the pack's judgement: "cornerwise packs show" has
them, and --all shows every number that is used. --format json prints the same
document as "cornerwise check --format json", with all suspects and tests.

Exit codes: 0 done, 2 the file or the call is wrong, 3 a fault in the program.`;

/** `cornerwise next FILE`: suspects, and the next test worth its minutes. */
export const addNext = (program: Command, shell: Shell): void => {
  const command = program
    .command('next')
    .summary('Rank the suspects, and name the next test worth its minutes.')
    .description('Rank the suspects of a job, say why, and name the next tests worth their minutes.')
    .argument('<FILE>', 'job file, or - for standard input')
    .addOption(new Option('--format <format>', 'how to print it').choices(['table', 'json']).default('table'))
    .addOption(asOfOption())
    .addOption(rulesOption())
    .option('--all', 'show every suspect, every number, every test');
  addLookOptions(command)
    .addHelpText('after', help)
    .action(async (file: string, flags: NextFlags) => {
      const { next } = await import('../actions/actions.ts');
      return next(file, flags, shell);
    });
};
