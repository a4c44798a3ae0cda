import type { Command } from 'commander';
import type { WaiveFlags } from '../actions/run-waive.ts';
import { addChangeOptions } from '../options.ts';
import type { Shell } from '../shell.ts';

const help = `
FINDING is a check, with its subject where only one of several is accepted:
stored-code:C3A21, left-right:rear, supply-charging/rested-battery. A name that
no finding has is answered with what is out.
The waiver ends at the end of the day that --until names, and is void once the
check means something else in a newer pack.

Examples:
  cornerwise waive s7.yaml rested-battery --reason "battery on order" \\
    --by "workshop lead" --until 2026-03-09
  cornerwise waive s7.yaml stored-code:C3A21 --reason "another module" \\
    --by "workshop lead" --until 7d

Exit codes: 0 written, 2 nothing was written, 3 a fault in the program itself.`;

/** `cornerwise waive FILE FINDING`: accepts a finding for a time. */
export const addWaive = (program: Command, shell: Shell): void => {
  const command = program
    .command('waive')
    .summary('Accept a finding for a time, with a reason, a name and an end.')
    .description('Accept a finding for a time: it then holds nothing, and every report names the waiver.')
    .argument('<FILE>', 'job file')
    .argument('<FINDING>', 'check, or check:subject')
    .option('--reason <text>', 'why it is accepted')
    .option('--by <role>', 'who accepts it')
    .option('--until <day>', 'the last day, such as 2026-03-09, or 7d from today');
  addChangeOptions(command)
    .addHelpText('after', help)
    .action(async (file: string, finding: string, flags: WaiveFlags) => {
      const { waive } = await import('../actions/actions.ts');
      return waive(file, finding, flags, shell);
    });
};
