import type { Command } from 'commander';
import type { UndoFlags } from '../actions/run-undo.ts';
import { addLookOptions } from '../options.ts';
import type { Shell } from '../shell.ts';

const help = `
Only what add, fill, log, fix, waive and packs upgrade wrote is taken back, by
this user on this machine, and only while nobody has changed the file since.
Called again it takes back the change before that.

Exit codes: 0 taken back, 2 nothing was changed, 3 a fault in the program.`;

/** `cornerwise undo FILE`: takes back the last change. */
export const addUndo = (program: Command, shell: Shell): void => {
  const command = program
    .command('undo')
    .summary('Take back the last change to a job file.')
    .description(
      'Take back the last change that add, fill, log, fix, waive or packs upgrade made to a job file.',
    )
    .argument('<FILE>', 'job file')
    .option('--quiet', 'print nothing but errors');
  addLookOptions(command)
    .addHelpText('after', help)
    .action(async (file: string, flags: UndoFlags) => {
      const { undo } = await import('../actions/actions.ts');
      return undo(file, flags, shell);
    });
};
