import { isState, type State } from '../../core/job.ts';
import type { Channel } from '../../core/pack.ts';
import type { Sink } from '../sink.ts';
import { stateMeant } from '../typed/typed-state.ts';
import { type Entry, get, type MapNode, type Node, textOf } from '../yaml/tree.ts';
import { codesForm } from './codes.ts';
import { addEntry } from './corners.ts';
import { entryOf, mapNode, textNode, withValue } from './nodes.ts';
import { sortReadings } from './readings.ts';

/** A state as files spell it; a word that is none stays, and the schema tells it. */
const stateForm = (node: Node): Node => {
  const text = textOf(node);
  if (text === undefined || isState(text)) return node;
  const state = stateMeant(text);
  return state === null ? node : textNode(state, node.start, node.end);
};

/** Entries put to those of a map, which is made where it is not there. */
const joined = (node: Node | undefined, more: readonly Entry[], sink: Sink): Node | undefined => {
  const [first] = more;
  if (first === undefined) return node;
  const entries = new Map(node?.kind === 'map' ? node.entries : []);
  for (const entry of more) addEntry(entries, entry, sink);
  const at = node?.kind === 'map' ? node : first.node;
  return mapNode(entries.values(), at.start, at.end);
};

/**
 * A snapshot in its usual form: its state as files spell it, readings below their channels, conditions, lamp and codes
 * in their places. Its id is left to whoever knows the others.
 */
export const snapshotForm = (node: Node, channels: ReadonlyMap<string, Channel>, sink: Sink): Node => {
  if (node.kind !== 'map') return node;
  let form: Node = withValue(node, 'state', stateForm);
  const own = get(form, 'readings');
  if (own) {
    const { readings, conditions, beside } = sortReadings(own, channels, sink);
    if (readings !== own || conditions.length > 0 || beside.length > 0) {
      const entries = new Map((form as MapNode).entries);
      const place = entries.get('readings');
      if (place) entries.set('readings', { ...place, node: readings });
      const stated = joined(get(form, 'conditions'), conditions, sink);
      if (stated && conditions.length > 0) entries.set('conditions', entryOf('conditions', stated));
      for (const entry of beside) addEntry(entries, entry, sink);
      form = { ...node, entries };
    }
  }
  return withValue(form, 'codes', (codes) => codesForm(codes, sink));
};

/** The first id that no snapshot has: the state, then the state with a number. */
export const freeName = (state: string, taken: ReadonlySet<string>): string => {
  let number = 1;
  const name = (): string => (number === 1 ? state : `${state}-${number}`);
  while (taken.has(name())) number += 1;
  return name();
};

const idOf = (node: Node): string | undefined => textOf(get(node, 'id'));

/** The snapshots with an id each: those without one are called by their state, and by a number where it is taken. */
export const withIds = (nodes: readonly Node[]): readonly Node[] => {
  if (nodes.every((node) => node.kind !== 'map' || get(node, 'id') !== undefined)) return nodes;
  const taken = new Set(nodes.map(idOf).filter((id) => id !== undefined));
  return nodes.map((node) => {
    if (node.kind !== 'map' || node.entries.has('id')) return node;
    const state: State | string = textOf(get(node, 'state')) ?? 'key-on';
    const id = freeName(isState(state) ? state : 'key-on', taken);
    taken.add(id);
    return { ...node, entries: new Map([['id', entryOf('id', textNode(id, node.start))], ...node.entries]) };
  });
};
