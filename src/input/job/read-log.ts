import { corners } from '../../core/corner.ts';
import { type LogEntry, type Stamp, states, type Verb, verbs, workVerbs } from '../../core/job.ts';
import { keyOf, parseKey } from '../../core/key.ts';
import type { Pack, Test } from '../../core/pack.ts';
import type { PreparedPacks } from '../../core/prepare/prepared-packs.ts';
import type { Warning } from '../../core/worksheet.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { didYouMean } from '../suggest.ts';
import { get, itemsOf, type Node, textOf } from '../yaml/tree.ts';
import { cornerHint } from './corner-hint.ts';

export interface LogScope {
  readonly prepared: PreparedPacks;
  readonly elsewhere: ReadonlyMap<string, string>;
  readonly timeAt: (node: Node) => Stamp | null;
  readonly warn: (warning: Warning) => void;
  readonly sink: Sink;
}

/** Things that a log may name besides components and steps. */
const always = [
  'codes',
  'ride-height',
  'road-test',
  'vehicle',
  'cost',
  ...states.map((state) => `readings/${state}`),
];

/** Every test of some packs, at each corner where it is done so. */
export const testNames = (packs: readonly Pack[]): string[] =>
  packs
    .flatMap(({ tests }) => tests)
    .flatMap(({ id, perCorner }) => (perCorner ? corners.map((one) => keyOf(id, one)) : [id]));

/** The test that a log entry names, with or without its corner. */
export const testNamed = (what: string, packs: readonly Pack[]): Test | undefined => {
  const { base, corner } = parseKey(what);
  for (const { tests } of packs) {
    const test = tests.find(({ id, perCorner }) => id === base && (corner === null || perCorner));
    if (test) return test;
  }
  return undefined;
};

/** Every name that a log may use with some packs: components, at each corner where they exist so, steps, and others. */
export const namesForLog = (packs: readonly Pack[]): string[] => [
  ...packs
    .flatMap((pack) => pack.components)
    .flatMap(({ id, perCorner }) => (perCorner ? corners.map((one) => keyOf(id, one)) : [id])),
  ...packs.flatMap((pack) => pack.steps).map(({ name }) => name),
  ...testNames(packs),
  ...always,
];

/** Verbs that may name anything, since they neither answer a step nor undo one. */
export const freeVerbs: readonly Verb[] = ['noted', 'waiting', 'tested', 'inspected', 'declined'];

const checkWhat = (node: Node, what: string, did: Verb, scope: LogScope): void => {
  const { components, stepNames, packs } = scope.prepared;
  const { base, corner } = parseKey(what);
  const component = components.find(({ id }) => id === base);
  if (component) {
    const works = workVerbs.includes(did);
    if (component.perCorner && corner === null && works) {
      const hint = `write ${corners.map((one) => `${base}.${one}`).join(', ')}`;
      scope.sink.add(
        'unknown-corner',
        node,
        `the log does not say which ${component.title} was ${did}`,
        hint,
      );
    }
    if (!component.perCorner && corner !== null) {
      scope.sink.add(
        'unknown-corner',
        node,
        `there is one ${component.title}, not one at each corner`,
        `write ${base}`,
      );
    }
    return;
  }
  const dot = what.lastIndexOf('.');
  const cornered = components.find(
    ({ id, perCorner }) => perCorner && id === what.slice(0, Math.max(0, dot)),
  );
  if (cornered) {
    const tail = what.slice(dot + 1);
    scope.sink.add('unknown-corner', node, `${quoted(tail)} is not a corner`, cornerHint(tail));
    return;
  }
  if (always.includes(what) || stepNames.has(what)) return;
  if (testNamed(what, packs)) return;
  const pack = scope.elsewhere.get(base);
  if (pack !== undefined) {
    scope.warn({ kind: 'name-not-used', name: what, pack });
    return;
  }
  if (freeVerbs.includes(did)) {
    if (did === 'tested' || did === 'inspected')
      scope.warn({ kind: 'name-not-used', name: what, pack: null });
    return;
  }
  const hint = didYouMean(
    what,
    namesForLog(packs),
    'name a component such as sensor.LR, a step, codes, ride-height or road-test',
  );
  scope.sink.add('unknown-name', node, `nothing in this job's packs is called ${quoted(what)}`, hint);
};

/** Reports a test without its corner or with an unknown outcome: it would silently be no evidence. */
const checkTest = (entry: Node, whatNode: Node, what: string, scope: LogScope): void => {
  const test = testNamed(what, scope.prepared.packs);
  if (!test) return;
  if (test.perCorner && parseKey(what).corner === null) {
    const hint = `write ${corners.map((one) => keyOf(test.id, one)).join(', ')}`;
    scope.sink.add(
      'unknown-corner',
      whatNode,
      `the log does not say at which corner ${test.id} was done`,
      hint,
    );
  }
  const foundNode = get(entry, 'found');
  const found = textOf(foundNode);
  if (!foundNode || found === undefined || test.outcomes.some(({ id }) => id === found)) return;
  const hint = didYouMean(
    found,
    test.outcomes.map(({ id }) => id),
  );
  scope.sink.add('unknown-name', foundNode, `${test.id} cannot find ${quoted(found)}`, hint);
};

const readEntry = (node: Node, order: number, scope: LogScope): LogEntry | null => {
  const at = get(node, 'at');
  const stamp = at ? scope.timeAt(at) : null;
  const didText = textOf(get(node, 'did'));
  const did = verbs.find((verb) => verb === didText);
  const whatNode = get(node, 'what');
  const what = textOf(whatNode) ?? null;
  if (did && whatNode && what !== null) checkWhat(whatNode, what, did, scope);
  if (did === 'tested' && whatNode && what !== null) checkTest(node, whatNode, what, scope);
  if (
    did &&
    what === null &&
    (workVerbs.includes(did) || did === 'completed' || did === 'cleared' || did === 'drove')
  ) {
    scope.sink.add(
      'missing-key',
      node,
      `the log does not say what was ${did}`,
      'add what: and a component, a step, codes or road-test',
    );
  }
  if (!stamp || !did) return null;
  return {
    stamp,
    order,
    did,
    what,
    failed: textOf(get(node, 'result')) === 'failed',
    found: textOf(get(node, 'found')) ?? null,
    waitsFor: textOf(get(node, 'for')) ?? null,
    note: textOf(get(node, 'note')) ?? null,
  };
};

/** Reads the log, in the file's order. An unknown name is an error where a step or a reading depends on it. */
export const readLog = (node: Node | undefined, scope: LogScope): LogEntry[] =>
  itemsOf(node)
    .map((item, index) => readEntry(item, index, scope))
    .filter((entry) => entry !== null);
