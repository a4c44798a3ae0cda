import type { Command } from 'commander';
import { layouts } from '../../core/job.ts';
import type { NewFlags } from '../actions/run-new.ts';
import { addChangeOptions } from '../options.ts';
import type { Shell } from '../shell.ts';

const help = `
Asks for what is not given as an option: first what a technician knows (the
vehicle, what the driver says and where, what was worked on before), then layout,
battery, charging and the sense of the sensors. "Not known" is a good answer:
fill asks again once it matters. With --vehicle and --layout nothing is asked,
and what is left out stands in the file as a comment. Packs and zone come from
the shop file where there is one. An existing file is never overwritten.

Examples:
  cornerwise new s7.yaml
  cornerwise new s7.yaml --vehicle "Shuttle 7" --layout four-corner-air \\
    --battery agm --charging fixed --complaint "Sits low at the left rear."

Exit codes: 0 written, 2 nothing was written, 3 a fault in the program itself.`;

/** `cornerwise new FILE`: a fresh job file. */
export const addNew = (program: Command, shell: Shell): void => {
  const command = program
    .command('new')
    .summary('Begin a job file: asks, or takes options.')
    .description('Begin a job file: asks for the vehicle and the complaint, or takes them as options.')
    .argument('<FILE>', 'job file to write')
    .option('--vehicle <name>', 'the vehicle, as the workshop calls it')
    .option('--layout <layout>', layouts.join(', '))
    .option('--system <volts>', '12 V or 24 V')
    .option('--battery <kind>', 'flooded, agm, efb, gel or lithium')
    .option('--charging <kind>', 'fixed or managed')
    .option('--sensor-signal <kind>', 'analogue, pwm or digital')
    .option('--complaint <text>', 'in the words of the driver')
    .option('--symptoms <words>', 'the same in a few words, such as "LR low after-standing"')
    .option('--recent-work <list>', 'what was worked on before, such as "sensor.RR, battery"')
    .option('--sensor-sense <word>', 'volts as the body rises: rising, falling, left-rising or right-rising')
    .option('--distance <value>', 'distance when it came in, such as "148200 km"')
    .option('--job <id>', "the job's own name (default: that of the file)")
    .option('--title <text>', 'a line for lists (default: the first sentence of the complaint)')
    .option('--packs <list>', 'rule packs, such as position-signals@1,handover@1 (default: the shop file)')
    .option('--zone <zone>', 'time zone, such as Europe/Dublin (default: the shop file)');
  addChangeOptions(command)
    .addHelpText('after', help)
    .action(async (file: string, flags: NewFlags) => {
      const { makeNew } = await import('../actions/actions.ts');
      return makeNew(file, flags, shell);
    });
};
