import { type Command, InvalidArgumentError, Option } from 'commander';
import type { Instant } from '../core/job.ts';
import { readTime } from '../input/read-time.ts';
import type { Shop } from '../input/shop.ts';
import type { ReportOptions } from '../report/style.ts';
import type { Io } from './io.ts';

/** An instant that may hang on a job's zone: what `--as-of` names, or now; null where that zone skips it. */
export type AsOf = (zone: string) => Instant | null;

/** The instants that a text of `--as-of` names. */
export const asOfText =
  (text: string): AsOf =>
  (zone) => {
    const read = readTime(text, zone);
    return read.ok ? read.stamp.at : null;
  };

/** The text of `--as-of` where it is a time. */
export const checkedTime = (text: string): string => {
  const inUtc = readTime(text, 'UTC');
  if (!inUtc.ok) throw new InvalidArgumentError(`${inUtc.message}: ${inUtc.hint}.`);
  return text;
};

const bareAsOf = (does: string): Option =>
  new Option(
    '--as-of <time>',
    `${does}, such as 2026-03-02T18:00 in the job's zone, or with an offset (default: now)`,
  );

/** `--as-of`: local times are read in the zone of each job. */
export const asOfOption = (does = 'judge as of a time'): Option =>
  bareAsOf(does).argParser((text: string): AsOf => asOfText(checkedTime(text)));

/** The same where the text goes to other threads. */
export const asOfTextOption = (): Option => bareAsOf('judge as of a time').argParser(checkedTime);

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
      if (!Number.isInteger(width) || width < 80 || width > 400)
        throw new InvalidArgumentError('Give 80 to 400 columns.');
      return width;
    })
    .option('--color', 'colour, whatever the output is')
    .option('--no-color', 'no colour');

export interface LookFlags {
  readonly ascii?: boolean;
  readonly width?: number;
  readonly color?: boolean;
  readonly all?: boolean;
}

/** Colour by flag, then NO_COLOR, then FORCE_COLOR, then whether there is a terminal. */
export const colourLevel = (flag: boolean | undefined, io: Io): 0 | 1 => {
  if (flag !== undefined) return flag ? 1 : 0;
  if (io.env.NO_COLOR) return 0;
  if (io.env.FORCE_COLOR) return io.env.FORCE_COLOR === '0' ? 0 : 1;
  return io.stdout.isTerminal && io.env.TERM !== 'dumb' ? 1 : 0;
};

/** The look of a call, with the units of the shop that a file belongs to. */
export const reportOptions = (flags: LookFlags, shop: Shop | null, io: Io): ReportOptions => ({
  width: flags.width ?? Math.min(Math.max(io.stdout.columns ?? 80, 80), 140),
  colour: colourLevel(flags.color, io),
  ascii: flags.ascii ?? false,
  all: flags.all ?? false,
  pressureUnit: shop?.pressureUnit ?? null,
  temperatureUnit: shop?.temperatureUnit ?? null,
});
