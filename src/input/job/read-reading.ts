import { isCorner } from '../../core/corner.ts';
import type { Reading } from '../../core/job.ts';
import { keyOf } from '../../core/key.ts';
import type { Channel } from '../../core/pack.ts';
import { parseQuantity, type TypedValue } from '../../core/readings/parse-quantity.ts';
import { impossible } from '../../core/readings/possible.ts';
import type { UnitName } from '../../core/readings/units.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { didYouMean } from '../suggest.ts';
import { get, itemsOf, type MapNode, type Node, textOf } from '../yaml/tree.ts';
import { cornerHint } from './corner-hint.ts';
import { tornNumber } from './decimal-comma.ts';
import { readLeads } from './read-leads.ts';

/** A quantity at a node, or null with the flaw reported. */
export const readQuantityNode = (node: Node, unit: UnitName, sink: Sink): TypedValue | null => {
  const text = textOf(node);
  if (text === undefined) {
    // The schema reports a missing value, with the name of the key.
    if (node.kind === 'scalar') return null;
    const hint = `write a value and its unit, such as 2.48 ${unit}`;
    sink.add('bad-reading', node, 'this is not one value', hint);
    return null;
  }
  const parsed = parseQuantity(text, unit);
  if (parsed.ok) return parsed.value;
  const { code, message, hint, typed } = parsed.fault;
  sink.add(code, node, message, typed ? didYouMean(typed.word, typed.known, hint) : hint);
  return null;
};

/** A value of a channel, or null where it is none or none that there can be. */
const readValue = (node: Node, { unit, possible }: Channel, sink: Sink): TypedValue | null => {
  const typed = readQuantityNode(node, unit, sink);
  const fault = typed && impossible(typed, unit, possible);
  if (!fault) return typed;
  sink.add('bad-reading', node, fault.message, fault.hint);
  return null;
};

const instrumentOf = (node: Node, channel: Channel, instruments: readonly string[], sink: Sink): string => {
  const by = get(node, 'by');
  const name = textOf(by);
  if (by === undefined || name === undefined) return channel.by;
  if (!instruments.includes(name)) {
    const hint = didYouMean(name, instruments, 'describe it under instruments');
    sink.add('unknown-instrument', by, `no instrument is called ${quoted(name)}`, hint);
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
    const hint = 'write value: 2.48 V, or low: and high:, or why: and the reason';
    const message =
      forms.length > 1 ? 'this says several things at once' : 'this reading is missing or incomplete';
    sink.add('bad-reading', node, message, hint);
    return null;
  }
  if (why !== undefined) return { kind: 'untaken', why };
  const leads = readLeads(get(node, 'at'), channel, sink);
  // Only where they are stated: readings without leads keep one shape.
  const at = leads === null ? {} : { leads };
  if (value !== undefined) {
    const typed = readValue(value, channel, sink);
    return typed && { kind: 'values', values: [typed], by, ...at };
  }
  const ends = [low, high].map((end) => end && readValue(end, channel, sink));
  const [bottom, top] = ends;
  if (!bottom || !top) return null;
  if (bottom.value > top.value) {
    sink.add('bad-reading', node, 'low is above high', `write {low: ${top.text}, high: ${bottom.text}}`);
    return null;
  }
  return { kind: 'span', low: bottom, high: top, by, ...at };
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
    const torn = tornNumber(node);
    if (torn) {
      const { first, second } = torn;
      const hint = `write ${first.text}.${second.text}, or a blank after the comma if these are two readings`;
      sink.add(
        'decimal-comma',
        first,
        `${quoted(`${first.text},${second.text}`)} may be one number or two`,
        hint,
      );
      return null;
    }
    const values = itemsOf(node).map((item) => readValue(item, channel, sink));
    if (values.length === 0) {
      sink.add(
        'bad-reading',
        node,
        'this list of readings is empty',
        'write the repeats, or {why: plug seized} if none could be taken',
      );
      return null;
    }
    const typed = values.filter((value) => value !== null);
    return typed.length === values.length ? { kind: 'values', values: typed, by: channel.by } : null;
  }
  const typed = readValue(node, channel, sink);
  return typed && { kind: 'values', values: [typed], by: channel.by };
};

const readingParts: ReadonlySet<string> = new Set(['value', 'by', 'low', 'high', 'at', 'why']);

/** Whether a node is a map of readings, and not one itself. */
const nests = (node: Node): node is MapNode => {
  if (node.kind !== 'map') return false;
  for (const key of node.entries.keys()) if (!readingParts.has(key)) return true;
  return false;
};

interface ReadingScope {
  readonly instruments: readonly string[];
  readonly sink: Sink;
}

/** Puts the readings of one channel to the others: one for the vehicle, or one a corner where corners nest. */
export const readChannelReadings = (
  keyStart: number,
  node: Node,
  channel: Channel,
  { instruments, sink }: ReadingScope,
  readings: Map<string, Reading>,
): void => {
  if (!nests(node)) {
    if (channel.per === 'corner') {
      const hint = `write ${channel.id}: {LF: …, RF: …, LR: …, RR: …}`;
      sink.add('unknown-corner', keyStart, `"${channel.id}" is read at each corner, and none is named`, hint);
      return;
    }
    const reading = readReading(node, channel, instruments, sink);
    if (reading) readings.set(channel.id, reading);
    return;
  }
  if (channel.per === 'vehicle') {
    const hint = `write ${channel.id}: and its one reading`;
    sink.add(
      'unknown-corner',
      keyStart,
      `"${channel.id}" is read once for the vehicle, not at corners`,
      hint,
    );
    return;
  }
  for (const { key, keyStart: at, node: value } of node.entries.values()) {
    if (!isCorner(key)) {
      sink.add('unknown-corner', at, `${quoted(key)} is not a corner`, cornerHint(key));
      continue;
    }
    const reading = readReading(value, channel, instruments, sink);
    if (reading) readings.set(keyOf(channel.id, key), reading);
  }
};
