import type { Command } from 'commander';
import type { AddFlags } from '../actions/run-add.ts';
import { addChangeOptions } from '../options.ts';
import type { Shell } from '../shell.ts';

const help = `
STATE is rest, key-on, cranking, running or driving; ign-on and idle are
understood, too. Then name=value, as many as you like, in any order and case:

  supply=12.2 battery=12.31     a channel; 2,48 is read as 2.48, and says so
  LF=2.48 FR=2.55               a corner alone is its position; FL means LF
  sup=12.2 bat=12.31            the beginning of a name, where it is of one only
  height.LR=412 tank=6.6bar     other channels of a corner; other units
  LF=2.48/2.50/2.49             repeats
  LF=0.9..2.6                   a signal that jumps
  supply=12.3@meter             read with another instrument than usual
  feed-drop="0.3V from fuse to pin"  where both leads of the meter were
  network-resistance=open       beyond the meter's range; OL means the same
  tank="gauge missing"          why it could not be taken
  lamp=on code=C1A21:stored:signal-range code=none
  code=C1A40:LR                 the place that its text names
  code=C1A41:in=other:test      stored by another module; set by a test
  floor=level load=empty air=8C levelling=disabled maintainer=off
  mode=normal on-stops=no asleep=40min
  level empty disabled 8C C1A21 the same without its name, where a word can be
                                of one thing only; 8C is the air
  battery=12310!                far outside of anything possible, and right

A value far outside of anything possible is asked about on a terminal; in a
script it is an error that says what was probably meant.

A single - reads names and values as JSON from standard input, in the same
spelling or in that of a job file's snapshot (without its id, at, state, note).

Examples:
  cornerwise add s7.yaml key-on supply=12.2 battery=12.31 LF=2.48 RF=2.55 LR=1.12 RR=2.61 tank=96psi
  cornerwise add s7.yaml running battery=14.1 --last --at 10:30
  scan-to-json | cornerwise add s7.yaml key-on -

Exit codes: 0 written, 2 nothing was written, 3 a fault in the program itself.`;

/** `cornerwise add FILE STATE name=value…`: one snapshot from one line. */
export const addAdd = (program: Command, shell: Shell): void => {
  const command = program
    .command('add')
    .summary('Add a snapshot of readings to a job file, from one line.')
    .description('Add a snapshot of readings to a job file from one line, and judge it at once.')
    .argument('<FILE>', 'job file')
    .argument('<STATE>', 'state of the vehicle')
    .argument('[readings...]', 'name=value, or - for JSON on standard input')
    .option('--at <time>', "when they were taken: 10:30 is today in the job's zone (default: now)")
    .option('--id <name>', 'name of the snapshot (default: the state, with a number)')
    .option(
      '-l, --last',
      'repeat the conditions of the newest snapshot that states any, except momentary ones',
    )
    .option('--note <text>', 'a note to keep with it')
    .option('--all', 'also show what is within, and the basis of each limit');
  addChangeOptions(command)
    .addHelpText('after', help)
    .action(async (file: string, state: string, words: string[], flags: AddFlags) => {
      const { add } = await import('../actions/actions.ts');
      return add(file, state, words, flags, shell);
    });
};
