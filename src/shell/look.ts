import type { Shop } from '../input/job/shop.ts';
import type { ReportOptions } from '../report/style.ts';
import type { Io } from './io.ts';

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
  width: flags.width ?? Math.min(Math.max(io.stdout.columns ?? 80, 60), 140),
  colour: colourLevel(flags.color, io),
  ascii: flags.ascii ?? false,
  all: flags.all ?? false,
  pressureUnit: shop?.pressureUnit ?? null,
  temperatureUnit: shop?.temperatureUnit ?? null,
});
