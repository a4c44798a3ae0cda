import { corners, isCorner } from '../core/corner.ts';
import type { Reading } from '../core/job.ts';
import { keyOf } from '../core/key.ts';
import type { Channel } from '../core/pack.ts';
import { parseQuantity, type TypedValue } from '../core/readings/parse-quantity.ts';
import type { UnitName } from '../core/readings/units.ts';
import type { Sink } from './sink.ts';
import { didYouMean } from './suggest.ts';
import { entriesOf, get, itemsOf, type Node, textOf } from './tree.ts';

/** A quantity at a node, or null with the flaw reported. */
export const readQuantityNode = (node: Node, unit: UnitName, sink: Sink): TypedValue | null => {
  const text = textOf(node);
  if (text === undefined) {
    sink.add('bad-reading', node, 'a reading is wanted here', `write one such as 2.48 ${unit}`);
    return null;
  }
  const parsed = parseQuantity(text, unit);
  if (parsed.ok) return parsed.value;
  sink.add(parsed.fault.code, node, parsed.fault.message, parsed.fault.hint);
  return null;
};

/** The cornerwise spellings of a few habits: FL for LF and so on are told, not guessed, in a file. */
const cornerHint = (typed: string): string => {
  const swapped = [...typed.toUpperCase()].reverse().join('');
  const guess = isCorner(swapped) ? swapped : isCorner(typed.toUpperCase()) ? typed.toUpperCase() : null;
  return guess ? `did you mean ${guess}?` : (didYouMean(typed, corners) ?? 'corners are LF, RF, LR, RR');
};

const instrumentOf = (node: Node, channel: Channel, instruments: readonly string[], sink: Sink): string => {
  const by = get(node, 'by');
  const name = textOf(by);
  if (by === undefined || name === undefined) return channel.by;
  if (!instruments.includes(name)) {
    const hint = didYouMean(name, instruments, 'describe it under instruments');
    sink.add('unknown-instrument', by, `no instrument is called "${name}"`, hint);
  }
  return name;
};

/** A map that is one reading: a value with its instrument, a span, or a reason why there is none. */
const readMapReading = (
  node: Node,
  channel: Channel,
  instruments: readonly string[],
  sink: Sink,
): Reading | null => {
  const why = textOf(get(node, 'why'));
  const value = get(node, 'value');
  const low = get(node, 'low');
  const high = get(node, 'high');
  const by = instrumentOf(node, channel, instruments, sink);
  const forms = [why !== undefined, value !== undefined, low !== undefined || high !== undefined].filter(
    Boolean,
  );
  if (forms.length !== 1 || (low === undefined) !== (high === undefined)) {
    const hint = 'give value:, or low: and high:, or why:';
    sink.add('bad-reading', node, 'this is not one reading', hint);
    return null;
  }
  if (why !== undefined) return { kind: 'untaken', why };
  if (value !== undefined) {
    const typed = readQuantityNode(value, channel.unit, sink);
    return typed && { kind: 'values', values: [typed], by };
  }
  const ends = [low, high].map((end) => end && readQuantityNode(end, channel.unit, sink));
  const [bottom, top] = ends;
  if (!bottom || !top) return null;
  if (bottom.value > top.value) {
    sink.add('bad-reading', node, 'low is above high', `write {low: ${top.text}, high: ${bottom.text}}`);
    return null;
  }
  return { kind: 'span', low: bottom, high: top, by };
};

/** One reading of a channel in any of its forms, or null with the flaw reported. */
export const readReading = (
  node: Node,
  channel: Channel,
  instruments: readonly string[],
  sink: Sink,
): Reading | null => {
  if (node.kind === 'map') return readMapReading(node, channel, instruments, sink);
  if (node.kind === 'list') {
    const values = itemsOf(node).map((item) => readQuantityNode(item, channel.unit, sink));
    if (values.length === 0) {
      sink.add(
        'bad-reading',
        node,
        'an empty list is no reading',
        'write the repeats, or {why: …} if none could be taken',
      );
      return null;
    }
    const typed = values.filter((value) => value !== null);
    return typed.length === values.length ? { kind: 'values', values: typed, by: channel.by } : null;
  }
  const typed = readQuantityNode(node, channel.unit, sink);
  return typed && { kind: 'values', values: [typed], by: channel.by };
};

const readingParts = new Set(['value', 'by', 'low', 'high', 'why']);

/** The readings of one channel: one for the vehicle, or one a corner where corners nest. */
export const readChannelReadings = (
  keyStart: number,
  node: Node,
  channel: Channel,
  instruments: readonly string[],
  sink: Sink,
): (readonly [string, Reading])[] => {
  const entries = entriesOf(node);
  const nests = entries.length > 0 && entries.some(({ key }) => !readingParts.has(key));
  if (!nests) {
    if (channel.per === 'corner') {
      const hint = `write ${channel.id}: {LF: …, RF: …, LR: …, RR: …}`;
      sink.add(
        'unknown-corner',
        keyStart,
        `"${channel.id}" is read at each corner; which one is this?`,
        hint,
      );
      return [];
    }
    const reading = readReading(node, channel, instruments, sink);
    return reading ? [[channel.id, reading]] : [];
  }
  if (channel.per === 'vehicle') {
    const hint = `write ${channel.id}: and the one reading`;
    sink.add(
      'unknown-corner',
      keyStart,
      `"${channel.id}" is read once for the vehicle, not at corners`,
      hint,
    );
    return [];
  }
  return entries.flatMap(({ key, keyStart: at, node: value }) => {
    if (!isCorner(key)) {
      sink.add('unknown-corner', at, `"${key}" is not a corner`, cornerHint(key));
      return [];
    }
    const reading = readReading(value, channel, instruments, sink);
    return reading ? [[keyOf(channel.id, key), reading] as const] : [];
  });
};
