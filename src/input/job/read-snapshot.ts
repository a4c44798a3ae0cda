import {
  type ConditionName,
  type Conditions,
  conditionWords,
  lampStates,
  type Reading,
  type Snapshot,
  type Stamp,
  states,
} from '../../core/job.ts';
import type { Channel } from '../../core/pack.ts';
import type { TypedValue } from '../../core/readings/parse-quantity.ts';
import type { UnitName } from '../../core/readings/units.ts';
import type { Warning } from '../../core/worksheet-parts.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { didYouMean } from '../suggest.ts';
import { get, type Node, textOf } from '../yaml/tree.ts';
import { readCodes } from './read-codes.ts';
import { readChannelReadings, readQuantityNode } from './read-reading.ts';

export interface SnapshotScope {
  readonly channels: ReadonlyMap<string, Channel>;
  readonly instruments: readonly string[];
  readonly elsewhere: ReadonlyMap<string, string>;
  readonly timeAt: (node: Node) => Stamp | null;
  /** When the job was opened: then a snapshot that does not say its time was taken. */
  readonly opened: () => Stamp;
  readonly warn: (warning: Warning) => void;
  readonly sink: Sink;
}

const conditionNames = Object.keys(conditionWords) as ConditionName[];

const quantityAt = (node: Node | undefined, key: string, unit: UnitName, sink: Sink): TypedValue | null => {
  const value = get(node, key);
  return value ? readQuantityNode(value, unit, sink) : null;
};

/** How long everything has slept is minutes as often as hours, so that a number alone would be a guess. */
const readAsleep = (node: Node | undefined, sink: Sink): TypedValue | null => {
  const text = textOf(node)?.trim();
  if (node === undefined || text === undefined || !/^\d+(?:\.\d+)?$/u.test(text))
    return node ? readQuantityNode(node, 'h', sink) : null;
  sink.add('unknown-unit', node, `${quoted(text)} may be minutes or hours`, `write ${text} min or ${text} h`);
  return null;
};

const readConditions = (node: Node | undefined, sink: Sink): Conditions => {
  const words: Partial<Record<ConditionName, string>> = {};
  for (const name of conditionNames) {
    const word = textOf(get(node, name));
    if (word !== undefined) words[name] = wordOf<string>(word, conditionWords[name]) ?? word;
  }
  return {
    words,
    air: quantityAt(node, 'air', '°C', sink),
    rested: quantityAt(node, 'rested', 'h', sink),
    asleep: readAsleep(get(node, 'asleep'), sink),
    barometer: quantityAt(node, 'barometer', 'kPa', sink),
    altitude: quantityAt(node, 'altitude', 'm', sink),
  };
};

/** Only a corner can stand behind the dot of a channel. */
const channelHint = (key: string, { channels, elsewhere }: SnapshotScope): string | null => {
  const known = [...channels.keys(), ...elsewhere.keys()];
  const [base = '', tail = ''] = key.split('.');
  if (tail !== '' && known.includes(base)) return `corners stand below it: write ${base}: {LF: …, RF: …}`;
  return didYouMean(key, known);
};

const readReadings = (node: Node | undefined, scope: SnapshotScope): Map<string, Reading> => {
  const readings = new Map<string, Reading>();
  if (node?.kind !== 'map') return readings;
  for (const { key, keyStart, node: value } of node.entries.values()) {
    if (key.startsWith('x-')) continue;
    const channel = scope.channels.get(key);
    if (channel) {
      readChannelReadings(keyStart, value, channel, scope, readings);
      continue;
    }
    const elsewhere = scope.elsewhere.get(key);
    if (elsewhere) {
      scope.warn({ kind: 'channel-not-judged', channel: key, pack: elsewhere });
    } else {
      const hint = channelHint(key, scope);
      scope.sink.add('unknown-channel', keyStart, `the job's packs have no channel ${quoted(key)}`, hint);
    }
  }
  return readings;
};

/** A word of a list, as the list has it: two strings that are one are quicker to compare. */
const wordOf = <T extends string>(text: string | undefined, words: readonly T[]): T | null =>
  words.find((word) => word === text) ?? null;

/** One snapshot, or null where its time cannot be read; what else is wrong with it is reported and read as well as it goes. */
export const readSnapshot = (node: Node, scope: SnapshotScope): Snapshot | null => {
  const at = get(node, 'at');
  const stamp = at ? scope.timeAt(at) : scope.opened();
  const id = textOf(get(node, 'id')) ?? '';
  const conditions = readConditions(get(node, 'conditions'), scope.sink);
  const readings = readReadings(get(node, 'readings'), scope);
  const codes = readCodes(get(node, 'codes'), scope.sink);
  if (!stamp) return null;
  // In one piece: what is added to a copy has a hidden class of its own, and whoever reads it is slow for it.
  return {
    id,
    stamp,
    state: wordOf(textOf(get(node, 'state')), states) ?? 'key-on',
    conditions,
    readings,
    lamp: wordOf(textOf(get(node, 'lamp')), lampStates),
    codes,
  };
};
