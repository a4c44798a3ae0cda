import type { Missing } from '../finding.ts';
import type { Reading, Snapshot } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Check, Scene, Taken } from '../pack.ts';
import { type Estimate, estimate } from '../readings/estimate.ts';
import { type Instrument, usualOffset } from '../readings/instruments.ts';
import type { TypedValue } from '../readings/parse-quantity.ts';
import type { UnitName } from '../readings/units.ts';
import { wasRead } from '../scene.ts';

export type Take = Taken | { readonly ok: false; readonly missing: Missing };

/** The unit of a channel key; a key that no pack declares is a bug, since packs are checked when they are read. */
export const unitOf = ({ shape: { byKey, channels } }: Scene, key: string): UnitName => {
  const before = byKey.get(key);
  if (before !== undefined) return before.unit;
  const channel = channels.get(parseKey(key).base);
  if (!channel) throw new Error(`no channel ${key}`);
  byKey.set(key, channel);
  return channel.unit;
};

export const instrumentNamed = (scene: Scene, name: string): Instrument => {
  for (const instrument of scene.job.instruments) if (instrument.name === name) return instrument;
  return { name, accuracy: [], shows: null, offset: usualOffset(name) };
};

/** The estimate of values typed for a channel, through the instrument that read them. */
export const estimateOf = (scene: Scene, key: string, values: readonly TypedValue[], by: string): Estimate =>
  estimate(values, unitOf(scene, key), instrumentNamed(scene, by), key);

/** Takes a reading as a single value, or says why there is none; of each once, since many checks ask. */
const takeReading = (reading: Reading, key: string, scene: Scene): Take => {
  switch (reading.kind) {
    case 'untaken':
      return { ok: false, missing: { why: 'could-not-be-taken', channel: key, text: reading.why } };
    case 'span':
      return { ok: false, missing: { why: 'jumping', channel: key } };
    case 'values': {
      const before = scene.taken.get(reading);
      if (before !== undefined) return before;
      const { values, by } = reading;
      const taken: Taken = { ok: true, estimate: estimateOf(scene, key, values, by), count: values.length };
      scene.taken.set(reading, taken);
      return taken;
    }
  }
};

/** Takes one reading out of a snapshot as a single value, or says why there is none. */
export const take = ({ readings }: Snapshot, key: string, scene: Scene, { states }: Check): Take => {
  const reading = readings.get(key);
  return reading === undefined
    ? { ok: false, missing: { why: 'no-reading', states, channels: [key] } }
    : takeReading(reading, key, scene);
};

/** That none of a subject's readings was ever taken: of checks that take them before they look at anything else. */
export const neverRead = (
  { channels }: { readonly channels: readonly string[] },
  scene: Scene,
  { states }: Check,
): Missing | null => (wasRead(scene, channels) ? null : { why: 'no-reading', states, channels });

/** Takes several readings at once; the first that is missing speaks for all, with every absent channel named. */
export const takeAll = (
  { readings }: Snapshot,
  keys: readonly string[],
  scene: Scene,
  { states }: Check,
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
    const one = takeReading(reading, key, scene);
    // Why a reading says nothing tells more than that another is absent.
    if (!one.ok) return one;
    taken.push(one);
  }
  return absent.length === 0
    ? { ok: true, taken }
    : { ok: false, missing: { why: 'no-reading', states, channels: absent } };
};
