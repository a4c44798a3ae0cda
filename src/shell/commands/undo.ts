import type { Command } from 'commander';
import { writtenText } from '../../report/entry/written.ts';
import { addLookOptions, type LookFlags } from '../options.ts';
import { takeBack } from '../save/take-back.ts';
import type { Shell } from '../shell.ts';
import { type ChangeFlags, refused, styleFor } from './changing.ts';

interface Flags extends LookFlags {
  readonly quiet?: boolean;
}

const help = `
Only what add, fill and log wrote is taken back, by this user on this machine,
and only while nobody has changed the file since. Called again it takes back
the change before that.

Exit codes: 0 taken back, 2 nothing was changed, 3 a fault in the program.`;

const undo = async (file: string, flags: Flags, shell: Shell): Promise<void> => {
  const all: ChangeFlags = { ...flags, rules: [] };
  const outcome = await takeBack(file, shell.io);
  if (outcome.kind !== 'taken-back') {
    refused(outcome, file, all, shell);
    return;
  }
  const more = outcome.left > 0 ? `; ${outcome.left} more on record` : '';
  const text = writtenText(`${file}: took back ${outcome.made.what}${more}`, [], styleFor(all, null, shell));
  if (!flags.quiet) shell.io.stdout.write(`${text}\n`);
};

/** `cornerwise undo FILE`: takes back the last change. */
export const addUndo = (program: Command, shell: Shell): void => {
  const command = program
    .command('undo')
    .summary('Take back the last change that add, fill or log made.')
    .description('Take back the last change that add, fill or log made to a job file.')
    .argument('<FILE>', 'job file')
    .option('--quiet', 'print nothing but errors');
  addLookOptions(command)
    .addHelpText('after', help)
    .action((file: string, flags: Flags) => undo(file, flags, shell));
};
