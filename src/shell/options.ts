import { type Command, InvalidArgumentError, Option } from 'commander';
import { failLevels } from '../core/level.ts';
import { typedTime } from '../input/job/time-form.ts';

/** `--as-of`: local times are read in the zone of each job. */
export const asOfOption = (does = 'judge as of a time'): Option =>
  new Option(
    '--as-of <time>',
    `${does}, such as 2026-03-02T18:00 in the job's zone, or with an offset (default: now)`,
  ).argParser((text: string): string => {
    const typed = typedTime(text);
    if (!typed.ok) throw new InvalidArgumentError(`${typed.message}: ${typed.hint}.`);
    return text;
  });

export const failOnOption = (): Option =>
  new Option(
    '--fail-on <level>',
    'the weight at which findings set exit code 1 (default: the shop file, else hold)',
  ).choices([...failLevels]);

export const rulesOption = (): Option =>
  new Option('--rules <dir>', 'a folder of rule packs that comes before all others (may be repeated)')
    .argParser((dir: string, before: readonly string[] | undefined) => [...(before ?? []), dir])
    .default([], 'none');

/** How things are to look on a terminal or in a pipe. */
export const addLookOptions = (command: Command): Command =>
  command
    .option('--ascii', 'only plain ASCII characters')
    .option('--width <columns>', 'width of tables (default: the terminal, else 80)', (text: string) => {
      const width = Number(text);
      if (!Number.isInteger(width) || width < 60 || width > 400)
        throw new InvalidArgumentError('Give 60 to 400 columns.');
      return width;
    })
    .option('--color', 'use colour even where the output is not a terminal')
    .option('--no-color', 'no colour');

/** The options of commands that write to a job file; a conversation cannot be quiet. */
export const addChangeOptions = (command: Command, canBeQuiet = true): Command => {
  command.addOption(asOfOption('take this time as now')).addOption(rulesOption());
  if (canBeQuiet) command.option('--quiet', 'print nothing but errors');
  return addLookOptions(command);
};
