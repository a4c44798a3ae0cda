import type { Spread } from './estimate.ts';
import { type Limits, margin } from './verdict.ts';

/** What would turn a too-close finding into a verdict. */
export type Settle =
  | { readonly how: 'finer-reading'; readonly placeValue: number }
  | { readonly how: 'repeat'; readonly times: number }
  | { readonly how: 'better-instrument'; readonly halfWidth: number }
  /** The limits are closer together than the instrument can tell apart. */
  | { readonly how: 'instrument-too-coarse'; readonly halfWidth: number }
  | { readonly how: 'on-the-limit' };

/** One significant digit, rounded down, so that the advice is enough. */
const roundDown = (value: number): number => {
  const decade = 10 ** Math.floor(Math.log10(value));
  return Math.floor(value / decade + 1e-9) * decade;
};

/**
 * The cheapest remedy for a value whose guard band covers a limit: read it finer, repeat it, or read it with
 * something better. A value that lies on its limit is told so; no instrument settles that.
 *
 * @param spread standard uncertainties, in the unit of value and limits
 * @param count how many repeats the value already rests on
 */
export const settle = (
  value: number,
  spread: Spread,
  limits: Limits,
  scatterFrom: 'resolution' | 'repeats',
  count: number,
): Settle => {
  const room = Math.abs(margin(value, limits) ?? 0);
  const { low, high } = limits;
  if (low !== null && high !== null && high - low < 4 * spread.total) {
    return { how: 'instrument-too-coarse', halfWidth: roundDown(((high - low) / 4) * Math.sqrt(3)) };
  }
  // U must come down to the room there is; what accuracy already takes of it cannot be won back by reading finer.
  const target = room / 2;
  if (target <= spread.total * 0.02) return { how: 'on-the-limit' };
  const leftForScatter = Math.sqrt(Math.max(0, target ** 2 - spread.accuracy ** 2));
  if (leftForScatter > 0 && scatterFrom === 'resolution') {
    return { how: 'finer-reading', placeValue: 10 ** Math.floor(Math.log10(leftForScatter * Math.sqrt(12))) };
  }
  if (leftForScatter > 0) {
    const times = Math.ceil(count * (spread.scatter / leftForScatter) ** 2);
    if (times <= 30) return { how: 'repeat', times };
  }
  return { how: 'better-instrument', halfWidth: roundDown(target * Math.sqrt(3) * 0.9) };
};
