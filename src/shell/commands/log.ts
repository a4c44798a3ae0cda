import type { Command } from 'commander';
import type { LogFlags } from '../actions/run-log.ts';
import { addChangeOptions } from '../options.ts';
import type { Shell } from '../shell.ts';

const help = `
VERB is tested, inspected, repaired, replaced, disconnected, programmed,
configured, calibrated, adjusted, charged, inflated, cleared, drove, completed,
skipped, ordered, received, authorised, declined, waiting, passed-on, released,
closed or noted.
WHAT is a component (sensor.LR; FL means LF), a step, a test, codes,
ride-height, road-test or vehicle; each of several gets its own entry. A test
that is done at a corner or on an axle names it: arm-by-hand.LR.
What an eye saw is --found fault-seen or nothing-seen. A test or step that is
skipped has a --reason. A job is closed with --result repaired, declined,
passed-on, towed or scrapped; all but the first want --reason and --by.
What is ordered, released or closed as repaired waits for its hold point.
While that is not clear nothing is written, unless --despite says why and --by
who decided it; every report then shows both. "noted stop" says that a danger
is heeded.

Examples:
  cornerwise log s7.yaml replaced sensor.LR linkage.LR --by technician
  cornerwise log s7.yaml tested reference-at-plug --found in-range
  cornerwise log s7.yaml calibrated ride-height --result passed --at 11:10
  cornerwise log s7.yaml cleared
  cornerwise log s7.yaml inspected air-line.LR --found fault-seen
  cornerwise log s7.yaml skipped leak-down-hold --reason "no gauge here"
  cornerwise log s7.yaml waiting sensor.LR --for "the parts desk"
  cornerwise log s7.yaml passed-on vehicle --to "the body shop" --by lead
  cornerwise log s7.yaml authorised cost --amount 420 --by "fleet desk"
  cornerwise log s7.yaml closed --result repaired

Exit codes: 0 written, 1 its hold point does not allow it, 2 nothing was
written, 3 a fault in the program itself.`;

/** `cornerwise log FILE VERB WHAT…`: work, tests and what else happened. */
export const addLog = (program: Command, shell: Shell): void => {
  const command = program
    .command('log')
    .summary('Log what was done: work, tests, waits; tells what must be done again.')
    .description('Log what was done, and tell what it changed and what to do now.')
    .argument('<FILE>', 'job file')
    .argument('<VERB>', 'what was done')
    .argument('[WHAT...]', 'what it was done to')
    .option('--found [outcome]', 'what a test or an eye found; without a word it tells what can be found')
    .option('--result <result>', 'passed or failed; for closed, how the job ended')
    .option('--for <what>', 'what or whom it waits for')
    .option('--to <whom>', 'whom the vehicle was passed on to')
    .option('--reason <text>', 'why a test is skipped, or a job is closed without a repair')
    .option('--amount <money>', 'what was authorised in all')
    .option('--despite <reason>', 'write it although its hold point is not clear; with --by')
    .option('--by <role>', 'who did it')
    .option('--note <text>', 'a note to keep with it')
    .option('--at <time>', "when: 10:30 is today in the job's zone (default: now)")
    .option('--all', 'also say every reason');
  addChangeOptions(command)
    .addHelpText('after', help)
    .action(async (file: string, did: string, what: string[], flags: LogFlags) => {
      const { log } = await import('../actions/actions.ts');
      return log(file, did, what, flags, shell);
    });
};
