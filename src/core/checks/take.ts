import type { Missing } from '../finding.ts';
import type { Snapshot } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Check, Scene } from '../pack.ts';
import { type Estimate, estimate } from '../readings/estimate.ts';
import type { Instrument } from '../readings/instruments.ts';
import type { TypedValue } from '../readings/parse-quantity.ts';
import type { UnitName } from '../readings/units.ts';

export interface Taken {
  readonly ok: true;
  readonly estimate: Estimate;
  /** How many repeats it rests on. */
  readonly count: number;
}

export type Take = Taken | { readonly ok: false; readonly missing: Missing };

/** The unit of a channel key; a key that no pack declares is a bug, since packs are checked when they are read. */
export const unitOf = (scene: Scene, key: string): UnitName => {
  const channel = scene.channels.get(parseKey(key).base);
  if (!channel) throw new Error(`no channel ${key}`);
  return channel.unit;
};

export const instrumentNamed = (scene: Scene, name: string): Instrument =>
  scene.job.instruments.find((instrument) => instrument.name === name) ?? { name, accuracy: [], shows: null };

/** The estimate of values typed for a channel, through the instrument that read them. */
export const estimateOf = (scene: Scene, key: string, values: readonly TypedValue[], by: string): Estimate =>
  estimate(values, unitOf(scene, key), instrumentNamed(scene, by));

/** Takes one reading out of a snapshot as a single value, or says why there is none. */
export const take = (snapshot: Snapshot, key: string, scene: Scene, check: Check): Take => {
  const reading = snapshot.readings.get(key);
  if (!reading) return { ok: false, missing: { why: 'no-reading', states: check.states, channels: [key] } };
  switch (reading.kind) {
    case 'untaken':
      return { ok: false, missing: { why: 'could-not-be-taken', channel: key, text: reading.why } };
    case 'span':
      return { ok: false, missing: { why: 'jumping', channel: key } };
    case 'values':
      return {
        ok: true,
        estimate: estimateOf(scene, key, reading.values, reading.by),
        count: reading.values.length,
      };
  }
};

/** Takes several readings at once; the first that is missing speaks for all, with every absent channel named. */
export const takeAll = (
  snapshot: Snapshot,
  keys: readonly string[],
  scene: Scene,
  check: Check,
):
  | { readonly ok: true; readonly taken: readonly Taken[] }
  | { readonly ok: false; readonly missing: Missing } => {
  const takes = keys.map((key) => take(snapshot, key, scene, check));
  const refused = takes.filter((one) => !one.ok).map(({ missing }) => missing);
  const [first] = refused;
  if (!first) return { ok: true, taken: takes.filter((one) => one.ok) };
  const telling = refused.find(({ why }) => why !== 'no-reading');
  if (telling) return { ok: false, missing: telling };
  const absent = refused.flatMap((reason) => (reason.why === 'no-reading' ? reason.channels : []));
  return { ok: false, missing: { why: 'no-reading', states: check.states, channels: absent } };
};
