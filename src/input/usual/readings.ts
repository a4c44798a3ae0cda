import { isCorner } from '../../core/corner.ts';
import type { Channel } from '../../core/pack.ts';
import { cornerMeant } from '../job/corner-hint.ts';
import type { Sink } from '../sink.ts';
import { cornerChannel, isConditionName } from '../typed/typed-name.ts';
import { type Entry, entriesOf, type MapNode, type Node } from '../yaml/tree.ts';
import { addEntry, withCornerKeys } from './corners.ts';
import { entryOf, mapNode, textNode } from './nodes.ts';

const readingParts: ReadonlySet<string> = new Set(['value', 'by', 'low', 'high', 'at', 'why']);

/** Several texts with one unit: that of the last serves those that have none. */
const withUnit = (parts: readonly string[]): string[] => {
  const unit = /[^\d.,\s+\u2212-].*$/u.exec(parts.at(-1)?.trim() ?? '')?.[0] ?? '';
  return parts.map((part) => {
    const own = part.trim();
    return unit === '' || /[^\d.,\s+\u2212-]/u.test(own) ? own : `${own} ${unit}`;
  });
};

/** Whether a reading holds none of the signs of another form; most do not, and nothing is made for them. */
const isPlain = (node: Node): boolean =>
  node.kind !== 'scalar' || typeof node.value !== 'string' || !/[@/]|\.\./u.test(node.text);

/** `0.9..2.6`, `2.48/2.50` and `12.3@meter` as the maps and lists that they stand for. */
const readingForm = (node: Node): Node => {
  if (node.kind !== 'scalar' || isPlain(node)) return node;
  const { text, start, end } = node;
  const part = (of: string): Node => textNode(of, start, end);
  const by = /^(.*\d.*?)\s*@\s*(\S+)$/u.exec(text);
  const rest = by?.[1] ?? text;
  const instrument = by?.[2] === undefined ? [] : [entryOf('by', part(by[2]))];
  const ends = /^(.*?\d.*?)\s*\.\.\s*(.+)$/u.exec(rest);
  if (ends) {
    const [low = '', high = ''] = withUnit([ends[1] ?? '', ends[2] ?? '']);
    return mapNode([entryOf('low', part(low)), entryOf('high', part(high)), ...instrument], start, end);
  }
  const repeats = rest.split(/\/(?=\s*[+-]?\d)/u);
  if (repeats.length > 1 && instrument.length === 0) {
    return { kind: 'list', items: withUnit(repeats).map(part), start, end, flow: true };
  }
  return instrument.length > 0 ? mapNode([entryOf('value', part(rest)), ...instrument], start, end) : node;
};

const nests = (node: Node): node is MapNode =>
  node.kind === 'map' && [...node.entries.keys()].some((key) => !readingParts.has(key));

/** What stands behind a channel: one reading, or one for each corner. */
const valueForm = (node: Node, sink: Sink): Node => {
  if (!nests(node)) return readingForm(node);
  const spelt = withCornerKeys(node, sink);
  if (spelt.kind !== 'map') return spelt;
  let changed = spelt !== node;
  const entries = new Map<string, Entry>();
  for (const entry of spelt.entries.values()) {
    const value = readingForm(entry.node);
    changed ||= value !== entry.node;
    entries.set(entry.key, value === entry.node ? entry : { ...entry, node: value });
  }
  return changed ? { ...spelt, entries } : node;
};

/** The channel and the corner that a key of `readings` means: `LF`, `FL`, `height.LR`; null where it is one name. */
const cornered = (key: string, channels: ReadonlyMap<string, Channel>): readonly [string, string] | null => {
  if (channels.has(key)) return null;
  const alone = cornerMeant(key);
  if (alone !== null) return [cornerChannel, alone];
  const dot = key.lastIndexOf('.');
  const corner = dot > 0 ? cornerMeant(key.slice(dot + 1)) : null;
  return corner === null ? null : [key.slice(0, dot), corner];
};

/** What stood among the readings of a snapshot, each under the key where files keep it. */
export interface SortedReadings {
  readonly readings: Node;
  /** Conditions that stood among the readings. */
  readonly conditions: readonly Entry[];
  /** `lamp` and `codes` that stood among the readings. */
  readonly beside: readonly Entry[];
}

interface Sorting {
  readonly channels: ReadonlyMap<string, Channel>;
  readonly sink: Sink;
  readonly entries: Map<string, Entry>;
  readonly conditions: Entry[];
  readonly beside: Entry[];
  /** Corners that stood without their channel, by that channel. */
  readonly corners: Map<string, Map<string, Entry>>;
}

/** Puts a corner that stands alone to the others of its channel, which keeps the place of the first of them. */
const sortCorner = (channel: string, entry: Entry, { entries, corners, sink }: Sorting): void => {
  const found = corners.get(channel) ?? new Map<string, Entry>();
  corners.set(channel, found);
  addEntry(found, entry, sink);
  if (!entries.has(channel)) entries.set(channel, { ...entry, key: channel });
};

const sortEntry = (entry: Entry, sorting: Sorting): void => {
  const { channels, sink, entries, conditions, beside, corners } = sorting;
  const { key } = entry;
  const place = cornered(key, channels);
  if (place) sortCorner(place[0], { ...entry, key: place[1] }, sorting);
  else if (channels.has(key)) {
    if (corners.has(key)) entries.set(key, entry);
    else addEntry(entries, entry, sink);
  } else if (isConditionName(key)) conditions.push(entry);
  else if (key === 'lamp' || key === 'codes') beside.push(entry);
  else if (key === 'code') beside.push({ ...entry, key: 'codes' });
  else addEntry(entries, entry, sink);
};

/** Puts corners that stood alone to those that stand below their channel. */
const joinCorners = (channel: string, own: Entry | undefined, { corners, entries, sink }: Sorting): void => {
  const found = [...(corners.get(channel)?.values() ?? [])];
  const first = own ?? found[0];
  // One value without a corner is told as that.
  if (first === undefined || (own && !nests(own.node))) return;
  const all = new Map<string, Entry>();
  for (const entry of entriesOf(own?.node)) all.set(entry.key, entry);
  for (const entry of found) addEntry(all, entry, sink);
  const { start, end } = first.node;
  entries.set(channel, { key: channel, keyStart: first.keyStart, node: mapNode(all.values(), start, end) });
};

/** Whether every channel is in its own place already, and every reading in its usual form. */
const isUsual = ({ entries }: MapNode, channels: ReadonlyMap<string, Channel>): boolean => {
  for (const [key, { node }] of entries) {
    if (!channels.has(key)) return false;
    if (node.kind !== 'map') {
      if (!isPlain(node)) return false;
      continue;
    }
    for (const [part, { node: value }] of node.entries) {
      if (!readingParts.has(part) && !(isCorner(part) && isPlain(value))) return false;
    }
  }
  return true;
};

/**
 * The readings of a snapshot with every channel in its own place: corners below their channel, and conditions, lamp
 * and codes that stand among them where they belong.
 *
 * @param channels the job's channels by their base names
 */
export const sortReadings = (
  node: Node,
  channels: ReadonlyMap<string, Channel>,
  sink: Sink,
): SortedReadings => {
  if (node.kind !== 'map' || isUsual(node, channels)) {
    return { readings: node, conditions: [], beside: [] };
  }
  const own = new Map<string, Entry>();
  const sorting: Sorting = {
    channels,
    sink,
    entries: new Map(),
    conditions: [],
    beside: [],
    corners: new Map(),
  };
  let changed = false;
  for (const entry of node.entries.values()) {
    const { key, node: typed } = entry;
    const value = key.startsWith('x-') ? typed : valueForm(typed, sink);
    const usual = value === typed ? entry : { ...entry, node: value };
    changed ||= value !== typed || !channels.has(key);
    own.set(key, usual);
    sortEntry(usual, sorting);
  }
  const { entries, conditions, beside, corners } = sorting;
  if (!changed) return { readings: node, conditions, beside };
  for (const channel of corners.keys()) joinCorners(channel, own.get(channel), sorting);
  return { readings: { ...node, entries }, conditions, beside };
};
