import { type Command, InvalidArgumentError, Option } from 'commander';
import type { UndoFlags } from '../actions/run-undo.ts';
import { addLookOptions } from '../options.ts';
import type { Shell } from '../shell.ts';

const help = `
Only what add, fill, log, fix, waive and packs upgrade wrote is taken back, by
this user on this machine, and only while nobody has changed the file since.
Called again it takes back the change before that.

--list shows the kept versions of the file, up to a hundred, the newest first:
number, time, command, what was changed, how many lines came and went. What was
edited by other hands is among them. --to brings a version back. What the file
was until then stays a version, whoever wrote it, and undo takes the way back.

Exit codes: 0 taken back or shown, 2 nothing was changed, 3 a fault in the
program, or a file that could not be written.`;

/** `cornerwise undo FILE`: takes back the last change, or brings back an earlier version. */
export const addUndo = (program: Command, shell: Shell): void => {
  const command = program
    .command('undo')
    .summary('Take back the last change to a job file.')
    .description(
      'Take back the last change that add, fill, log, fix, waive or packs upgrade made to a job file, or bring back an earlier version of it.',
    )
    .argument('<FILE>', 'job file')
    .option('--list', 'show the kept versions, and change nothing')
    .addOption(
      new Option('--to <number>', 'bring back this version').conflicts('list').argParser((text: string) => {
        if (!/^[1-9]\d{0,8}$/u.test(text))
          throw new InvalidArgumentError('Give the number of a version; --list shows them.');
        return Number(text);
      }),
    )
    .option('--quiet', 'print nothing but errors');
  addLookOptions(command)
    .addHelpText('after', help)
    .action(async (file: string, flags: UndoFlags) => {
      const { undo } = await import('../actions/actions.ts');
      return undo(file, flags, shell);
    });
};
