import type { Command } from 'commander';
import type { FixFlags } from '../actions/run-fix.ts';
import { addChangeOptions } from '../options.ts';
import type { Shell } from '../shell.ts';

const help = `
SNAPSHOT is the name that the readings have in the file (as-found, key-on-2).
name=value is spelt as for add. A reading, the lamp or a code must be there;
what stood there is kept in a comment behind its line. A condition that was
forgotten is added. What was read later is a snapshot of its own: add it.

Examples:
  cornerwise fix s7.yaml as-found battery=12.31
  cornerwise fix s7.yaml key-on LF=2.48 floor=level
  cornerwise fix s7.yaml key-on code=C3A21:present

Exit codes: 0 written, 2 nothing was written, 3 a fault in the program itself.`;

/** `cornerwise fix FILE SNAPSHOT name=value…`: puts a snapshot right. */
export const addFix = (program: Command, shell: Shell): void => {
  const command = program
    .command('fix')
    .summary('Correct a typed reading, or add a forgotten condition.')
    .description('Correct a reading of a snapshot, or add a condition that was forgotten; judge it at once.')
    .argument('<FILE>', 'job file')
    .argument('<SNAPSHOT>', 'name of the snapshot')
    .argument('[readings...]', 'name=value, as for add')
    .option('--all', 'also show what is within, and the basis of each limit');
  addChangeOptions(command)
    .addHelpText('after', help)
    .action(async (file: string, snapshot: string, words: string[], flags: FixFlags) => {
      const { fix } = await import('../actions/actions.ts');
      return fix(file, snapshot, words, flags, shell);
    });
};
