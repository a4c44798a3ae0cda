import type { Command } from 'commander';
import type { FillFlags } from '../actions/run-fill.ts';
import { addChangeOptions } from '../options.ts';
import type { Shell } from '../shell.ts';

const help = `
Asks first for what wants no reading: facts of the vehicle that matter now, and
conditions that nobody stated. Then in the order in which one would take them:
all with the key on, then while cranking, then with the engine running; where a
signal is out, the heights by tape, too; after work, all that is to be taken
again. At each question:

  2.48, 2,48 V, 96psi      a reading, as for add; also 2.48/2.50 and 0.9..2.6
  1, l, level              a word by its number, its beginning or as it stands
  gauge missing            words say why it could not be taken
  !                        keeps a value that was asked about
  Enter                    keeps what stands in brackets, else skips
  -                        leaves it out
  <                        goes back to the question before
  Ctrl-D or Ctrl-C         stops

Every answer is saved at once. Called again within half an hour, and with no
work in between, it goes on with the same snapshots. Without a terminal the
answers are read from standard input, a line each, words in full, and the first
that cannot be read ends the session; a script should use add with JSON.

Exit codes: 0 the session ended, 2 the file or the call is wrong, 3 a fault in
the program itself.`;

/** `cornerwise fill FILE`: asks for just the readings that the packs still want. */
export const addFill = (program: Command, shell: Shell): void => {
  const command = program
    .command('fill')
    .summary('Ask for the readings that the packs still want, judging each as it is typed.')
    .description(
      'Ask for just the readings that the packs still want; each is judged and saved as it is typed.',
    )
    .argument('<FILE>', 'job file')
    .option('--all', 'also ask for readings that only a test needs, and for those that wait for work')
    .option('--new', 'begin new snapshots, even shortly after the last ones');
  addChangeOptions(command, false)
    .addHelpText('after', help)
    .action(async (file: string, flags: FillFlags) => {
      const { fill } = await import('../actions/actions.ts');
      return fill(file, flags, shell);
    });
};
