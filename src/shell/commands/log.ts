import type { Command } from 'commander';
import type { LogFlags } from '../actions/run-log.ts';
import { addChangeOptions } from '../options.ts';
import type { Shell } from '../shell.ts';

const help = `
VERB is tested, inspected, repaired, replaced, disconnected, programmed,
configured, calibrated, cleared, drove, completed, ordered, received,
authorised, declined, waiting, released, closed or noted.
WHAT is a component (sensor.LR; FL means LF), a step, a test, codes,
ride-height, road-test or vehicle; each of several gets its own entry.

Examples:
  cornerwise log s7.yaml replaced sensor.LR linkage.LR --by technician
  cornerwise log s7.yaml tested reference-at-plug --found in-range
  cornerwise log s7.yaml calibrated ride-height --result passed --at 11:10
  cornerwise log s7.yaml cleared
  cornerwise log s7.yaml waiting sensor.LR --for "the parts desk"

Exit codes: 0 written, 2 nothing was written, 3 a fault in the program itself.`;

/** `cornerwise log FILE VERB WHAT…`: work, tests and what else happened. */
export const addLog = (program: Command, shell: Shell): void => {
  const command = program
    .command('log')
    .summary('Log what was done: work, tests, waits; tells what must be done again.')
    .description(
      'Log what was done, and tell what follows: steps done, to do again, readings that no longer hold.',
    )
    .argument('<FILE>', 'job file')
    .argument('<VERB>', 'what was done')
    .argument('[WHAT...]', 'what it was done to')
    .option('--found [outcome]', 'what a test found; without a word it tells what the test can find')
    .option('--result <result>', 'passed or failed')
    .option('--for <what>', 'what or whom it waits for')
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
