import type { Missing } from '../finding.ts';
import type { Reading, Snapshot } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Channel, Check } from '../pack.ts';
import type { Estimate } from '../readings/estimate.ts';
import type { TypedValue } from '../readings/parse-quantity.ts';
import type { UnitName } from '../readings/units.ts';
import { type CheckContext, estimateIn, type Taken, wasRead } from './check-context.ts';

export type Take = Taken | { readonly ok: false; readonly missing: Missing };

/** The unit of a channel key; a key that no pack declares is a bug, since packs are checked when they are read. */
export const unitOf = (context: CheckContext, key: string): UnitName => channelOf(context, key).unit;

const channelOf = ({ channels }: CheckContext, key: string): Channel => {
  const channel = channels.get(parseKey(key).base);
  if (!channel) throw new Error(`no channel ${key}`);
  return channel;
};

/** The estimate of values typed for a channel, through the instrument that read them. */
export const estimateOf = (
  context: CheckContext,
  key: string,
  values: readonly TypedValue[],
  by: string,
): Estimate => estimateIn(channelOf(context, key), key, values, by, context.job.instruments);

/** Takes a reading as a single value, or says why there is none. */
const takeReading = (
  reading: Reading,
  key: string,
  { taken, unbelievable }: CheckContext,
  takesSpans: boolean,
): Take => {
  if (reading.kind === 'untaken')
    return { ok: false, missing: { why: 'could-not-be-taken', channel: key, text: reading.why } };
  const doubt = unbelievable.get(reading);
  if (doubt) return { ok: false, missing: { why: 'unbelievable', channel: key, ...doubt } };
  if (reading.kind === 'span' && !takesSpans) return { ok: false, missing: { why: 'jumping', channel: key } };
  const value = taken.get(reading);
  if (value === undefined) throw new Error(`no channel ${key}`);
  return value;
};

/** Takes one reading out of a snapshot as a single value, or says why there is none. */
export const take = (
  { readings }: Snapshot,
  key: string,
  context: CheckContext,
  { states, takesSpans }: Check,
): Take => {
  const reading = readings.get(key);
  return reading === undefined
    ? { ok: false, missing: { why: 'no-reading', states, channels: [key] } }
    : takeReading(reading, key, context, takesSpans);
};

/** Reports that none of a subject's readings was ever taken; for kinds that need a reading before anything else. */
export const neverRead = (
  { channels }: { readonly channels: readonly string[] },
  context: CheckContext,
  { states }: Check,
): Missing | null => (wasRead(context, channels) ? null : { why: 'no-reading', states, channels });

/** Takes several readings at once; the first that is missing speaks for all, with every absent channel named. */
export const takeAll = (
  { readings }: Snapshot,
  keys: readonly string[],
  context: CheckContext,
  { states, takesSpans }: Check,
):
  | { readonly ok: true; readonly taken: readonly Taken[] }
  | { readonly ok: false; readonly missing: Missing } => {
  const taken: Taken[] = [];
  const absent: string[] = [];
  for (const key of keys) {
    const reading = readings.get(key);
    if (reading === undefined) {
      absent.push(key);
      continue;
    }
    const one = takeReading(reading, key, context, takesSpans);
    // Why a reading says nothing tells more than that another is absent.
    if (!one.ok) return one;
    taken.push(one);
  }
  return absent.length === 0
    ? { ok: true, taken }
    : { ok: false, missing: { why: 'no-reading', states, channels: absent } };
};
