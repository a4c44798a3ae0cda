import { isCorner } from '../../core/corner.ts';
import { cornerMeant } from '../job/corner-hint.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { type Entry, type Node, textOf } from '../yaml/tree.ts';
import { textNode } from './nodes.ts';

/** Puts an entry to the others; one that says again what an earlier one says is told. */
export const addEntry = (entries: Map<string, Entry>, entry: Entry, sink: Sink): void => {
  if (entries.has(entry.key)) {
    const message = `${quoted(entry.key)} is set a second time`;
    sink.add(
      'duplicate-key',
      entry.keyStart,
      message,
      'another spelling of it stands before; keep one of them',
    );
    return;
  }
  entries.set(entry.key, entry);
};

/** A map whose keys are corners, each as files spell it: `FL` is `LF`. */
export const withCornerKeys = (node: Node, sink: Sink): Node => {
  if (node.kind !== 'map') return node;
  let spelt = true;
  for (const key of node.entries.keys()) spelt &&= isCorner(key) || cornerMeant(key) === null;
  if (spelt) return node;
  const entries = new Map<string, Entry>();
  for (const entry of node.entries.values()) {
    addEntry(entries, { ...entry, key: cornerMeant(entry.key) ?? entry.key }, sink);
  }
  return { ...node, entries };
};

/** A corner as a value of its own; any other word stays. */
export const cornerValue = (node: Node): Node => {
  const text = textOf(node);
  if (text === undefined || isCorner(text)) return node;
  const corner = cornerMeant(text);
  return corner === null ? node : textNode(corner, node.start, node.end);
};

/** A name that ends in a corner, as files spell it: `sensor.FL` is `sensor.LF`. */
export const speltName = (text: string): string => {
  const dot = text.lastIndexOf('.');
  if (dot <= 0) return text;
  const tail = text.slice(dot + 1);
  const corner = isCorner(tail) ? null : cornerMeant(tail);
  return corner === null ? text : `${text.slice(0, dot)}.${corner}`;
};

/** The same of a value. */
export const nameValue = (node: Node): Node => {
  const text = textOf(node);
  if (text === undefined) return node;
  const spelt = speltName(text);
  return spelt === text ? node : textNode(spelt, node.start, node.end);
};
