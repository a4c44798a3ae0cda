import type { Channel } from '../../core/pack.ts';
import type { Way } from '../edit/way.ts';
import type { LocatedFlaw } from '../problem.ts';
import { makeSink, type Sink } from '../sink.ts';
import { type Entry, get, itemsOf, type MapNode, type Node, textOf } from '../yaml/tree.ts';
import { cornerValue, nameValue, withCornerKeys } from './corners.ts';
import { entryOf, mapItems, mapNode, textNode, withEntries, withValue } from './nodes.ts';
import { snapshotForm, withIds } from './snapshot.ts';

/** A job's tree in its usual form, and where its snapshots stand in the file. */
export interface UsualForm {
  readonly root: Node;
  /** Names that are given twice, in two spellings, and codes that are none. */
  readonly flaws: readonly LocatedFlaw[];
  /** The place of each snapshot in the file, by its id; the top of the file for readings that stand there. */
  readonly ways: ReadonlyMap<string, Way>;
  /** True where readings stand at the top of the file whose state is not stated. */
  readonly stateAssumed: boolean;
}

/** What a snapshot says, and may say at the top of the file where there is only one. */
const bareKeys: readonly string[] = ['at', 'state', 'conditions', 'readings', 'lamp', 'codes'];

/** A corner, or a name that ends in one. */
const placeValue = (node: Node): Node => {
  const corner = cornerValue(node);
  return corner === node ? nameValue(node) : corner;
};

const vehicleForm = (node: Node, sink: Sink): Node => {
  if (node.kind === 'scalar' && textOf(node) !== undefined) {
    return mapNode([entryOf('name', node)], node.start, node.end);
  }
  const fitted = withValue(node, 'fitted', (list) => mapItems(list, cornerValue));
  const sense = withValue(fitted, 'sensor-sense', (map) => withCornerKeys(map, sink));
  const heights = withValue(sense, 'heights', (map) => withCornerKeys(map, sink));
  return withValue(heights, 'service-data', (list) =>
    mapItems(list, (item) => withValue(item, 'of', placeValue)),
  );
};

const symptomForm = (node: Node): Node => withValue(node, 'where', cornerValue);

/** Readings that stand at the top of the file, as the snapshot that they are. */
const bareSnapshot = (root: MapNode): MapNode | null => {
  const own = bareKeys.flatMap((key) => root.entries.get(key) ?? []);
  const [first] = own;
  if (first === undefined) return null;
  const state = own.some(({ key }) => key === 'state')
    ? []
    : [entryOf('state', textNode('key-on', first.keyStart))];
  return mapNode([...own, ...state], first.keyStart, first.node.end);
};

/** The snapshots of a file, those at its top first, in their usual form and with their names. */
const snapshotsOf = (
  root: MapNode,
  bare: MapNode | null,
  channels: ReadonlyMap<string, Channel>,
  sink: Sink,
): readonly Node[] => {
  const listed = itemsOf(get(root, 'snapshots'));
  const all = bare === null ? listed : [bare, ...listed];
  return withIds(all.map((node) => snapshotForm(node, channels, sink)));
};

const waysOf = (snapshots: readonly Node[], isBare: boolean): Map<string, Way> => {
  const ways = new Map<string, Way>();
  for (const [index, node] of snapshots.entries()) {
    const id = textOf(get(node, 'id'));
    const place = isBare ? index - 1 : index;
    if (id !== undefined && !ways.has(id)) ways.set(id, place < 0 ? [] : ['snapshots', place]);
  }
  return ways;
};

/**
 * A job's tree with all that may be written shorter written out, and every other spelling replaced: a vehicle that is
 * only named, readings at the top of the file, snapshots without a name, corners beside channels, codes in one word.
 * What is written out stands at the place that it was written at, so that whatever is wrong with it is told there.
 *
 * @param channels the job's channels by their base names
 */
export const usualForm = (root: Node, channels: ReadonlyMap<string, Channel>): UsualForm => {
  const sink = makeSink();
  if (root.kind !== 'map') return { root, flaws: [], ways: new Map(), stateAssumed: false };
  const bare = bareSnapshot(root);
  const listed = itemsOf(get(root, 'snapshots'));
  const snapshots = snapshotsOf(root, bare, channels, sink);
  let form: Node = root;
  const isListed = bare === null && snapshots.length === listed.length;
  if (!isListed || snapshots.some((node, index) => node !== listed[index])) {
    form = withSnapshots(root, bare, snapshots);
  }
  form = withValue(form, 'vehicle', (node) => vehicleForm(node, sink));
  form = withValue(form, 'symptoms', (node) =>
    node.kind === 'map' ? symptomForm(node) : mapItems(node, symptomForm),
  );
  form = withValue(form, 'recent-work', (node) => mapItems(node, placeValue));
  form = withValue(form, 'log', (node) => mapItems(node, (item) => withValue(item, 'what', nameValue)));
  const ways = waysOf(snapshots, bare !== null);
  return {
    root: form,
    flaws: sink.flaws,
    ways,
    stateAssumed: bare !== null && get(root, 'state') === undefined,
  };
};

/** The tree with these snapshots, and without what stood at its top. */
const withSnapshots = (root: MapNode, bare: MapNode | null, snapshots: readonly Node[]): MapNode => {
  const place = root.entries.get('snapshots');
  const list = place?.node.kind === 'list' ? place.node : null;
  // Snapshots that are no list are left for the schema to tell.
  if (place && !list) return root;
  const start = bare?.start ?? list?.start ?? root.start;
  const node: Node = {
    kind: 'list',
    items: snapshots,
    start,
    end: list?.end ?? bare?.end ?? start,
    flow: list?.flow ?? false,
  };
  const entry: Entry = { key: 'snapshots', keyStart: place?.keyStart ?? start, node };
  const rest = [...root.entries.values()].filter(
    ({ key }) => key !== 'snapshots' && !(bare && bareKeys.includes(key)),
  );
  return withEntries(root, [...rest, entry]);
};
