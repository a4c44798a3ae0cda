import {
  closings,
  heldVerbs,
  type LogEntry,
  type Stamp,
  sights,
  states,
  type Vehicle,
  type Verb,
  verbs,
  workVerbs,
} from '../../core/job.ts';
import { keysOf, parseKey, placesOf } from '../../core/key.ts';
import type { Component, Pack, Test } from '../../core/pack.ts';
import type { PreparedPacks } from '../../core/prepare/prepared-packs.ts';
import type { Warning } from '../../core/worksheet-parts.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { didYouMean } from '../suggest.ts';
import { get, itemsOf, type Node, textOf } from '../yaml/tree.ts';
import { cornerHint } from './corner-hint.ts';
import { placeLacking } from './layout-places.ts';
import { inFileOrder } from './same-minute.ts';

export interface LogScope {
  readonly prepared: PreparedPacks;
  readonly vehicle: Pick<Vehicle, 'layout' | 'fitted'>;
  readonly elsewhere: ReadonlyMap<string, string>;
  readonly timeAt: (node: Node) => Stamp | null;
  readonly warn: (warning: Warning) => void;
  readonly sink: Sink;
}

/** Steps that the program makes itself, for readings that checks still want. */
const sessions = [...states.map((state) => `readings/${state}`), 'readings/vehicle'];

/** Things that a log may name besides components and steps. */
const always = ['codes', 'ride-height', 'road-test', 'vehicle', 'cost', ...sessions];

/** Every test of some packs, at each corner or axle where it is done so. */
export const testNames = (packs: readonly Pack[]): string[] =>
  packs.flatMap(({ tests }) => tests).flatMap(({ id, per }) => keysOf(id, per));

/** The test that a log entry names, with or without its place. */
export const testNamed = (what: string, packs: readonly Pack[]): Test | undefined => {
  const { base, corner, axle } = parseKey(what);
  const place = corner ?? axle;
  for (const { tests } of packs) {
    const test = tests.find(
      ({ id, per }) => id === base && (place === null || placesOf(per).includes(place)),
    );
    if (test) return test;
  }
  return undefined;
};

/** Every name that a log may use with some packs: components, at each place where they exist so, steps, and others. */
export const namesForLog = (packs: readonly Pack[]): string[] => [
  ...packs.flatMap((pack) => pack.components).flatMap(({ id, per }) => keysOf(id, per)),
  ...packs.flatMap((pack) => pack.steps).map(({ name }) => name),
  ...testNames(packs),
  ...packs.flatMap((pack) => pack.asks).map(({ id }) => id),
  ...always,
];

/** These may name anything: they order no step and undo none. */
export const freeVerbs: readonly Verb[] = [
  'noted',
  'waiting',
  'tested',
  'inspected',
  'declined',
  'passed-on',
];

/** A component must be named at a place that it has; work must say which one it was done to. */
const checkPlace = (node: Node, component: Component, what: string, did: Verb, { sink }: LogScope): void => {
  const { id, per, title } = component;
  const { corner, axle } = parseKey(what);
  const place = corner ?? axle;
  const each = keysOf(id, per);
  if (placesOf(per).includes(place)) return;
  if (place === null) {
    if (!workVerbs.includes(did)) return;
    const message = `the log does not say which ${title} was ${did}`;
    sink.add('unknown-corner', node, message, `write ${each.join(', ')}`);
  } else if (per === 'vehicle' && corner !== null) {
    const message = `there is one ${title}, not one at each corner`;
    sink.add('unknown-corner', node, message, `write ${id}`);
  } else if (per === 'corner') {
    sink.add('unknown-corner', node, `${quoted(place)} is not a corner`, cornerHint(place));
  } else if (per !== 'vehicle') {
    const message = `there is one ${title} an axle, not one at each corner`;
    sink.add('unknown-corner', node, message, `write ${each.join(', ')}`);
  } else if (!freeVerbs.includes(did)) {
    const message = `there is one ${title}, not one an axle`;
    sink.add('unknown-corner', node, message, `write ${id}`);
  }
};

const checkWhat = (node: Node, what: string, did: Verb, scope: LogScope): void => {
  const { components, stepNames, packs } = scope.prepared;
  const { base } = parseKey(what);
  const component = components.find(({ id }) => id === base);
  if (component) {
    checkPlace(node, component, what, did, scope);
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

/**
 * A test is done somewhere and finds one of few things: what is misspelt here would be no evidence, unnoticed. Where
 * it was done older files do not always say; such an entry is kept, and counts for no corner.
 */
const checkTest = (entry: Node, whatNode: Node, what: string, scope: LogScope): void => {
  const test = testNamed(what, scope.prepared.packs);
  if (!test) return;
  const { corner, axle } = parseKey(what);
  const place = corner ?? axle;
  const places = placesOf(test.per).filter((one) => one !== null);
  if (place === null && !placesOf(test.per).includes(null)) {
    scope.warn({ kind: 'test-without-corner', test: test.id, places });
  }
  const lacking = place === null ? null : placeLacking(place, scope.vehicle);
  if (lacking !== null) {
    const has = places.filter((one) => placeLacking(one, scope.vehicle) === null);
    const hint = `write ${has.map((one) => `${test.id}.${one}`).join(', ')}, or correct layout: and fitted:`;
    scope.sink.add('unknown-corner', whatNode, lacking, hint);
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

/** Only two words of an inspection are evidence; others were always kept, and still are. */
const checkSight = (entry: Node, what: string, { prepared, warn }: LogScope): void => {
  const found = textOf(get(entry, 'found'));
  const known = prepared.components.some(({ id }) => id === parseKey(what).base);
  if (found === undefined || !known || (sights as readonly string[]).includes(found)) return;
  warn({ kind: 'sight-in-words', component: what, found });
};

/** Only a test, a step or a reading can be skipped: what is skipped is asked for no more. */
export const canBeSkipped = (what: string, packs: readonly Pack[]): boolean =>
  sessions.includes(what) ||
  packs.some(
    ({ steps, asks }) =>
      steps.some(({ name, id }) => name === what || id === what) || asks.some(({ id }) => id === what),
  ) ||
  testNamed(what, packs) !== undefined;

const checkSkipped = (node: Node, what: string, { prepared, sink }: LogScope): void => {
  const { packs, stepNames, tests } = prepared;
  if (canBeSkipped(what, packs)) return;
  const asks = packs.flatMap((pack) => pack.asks).map(({ id }) => id);
  const known = [
    ...new Set([...tests.flatMap(({ id, per }) => [id, ...keysOf(id, per)]), ...stepNames, ...asks]),
  ];
  const hint = didYouMean(what, known, 'name a test such as arm-by-hand.LR, or a step');
  sink.add('unknown-name', node, `${quoted(what)} is neither a test nor a step of this job's packs`, hint);
};

/** The verbs that say nothing without more than what they were done to. */
const wanting: Partial<Readonly<Record<Verb, readonly (readonly [key: string, hint: string])[]>>> = {
  skipped: [['reason', 'add reason: and why it is not done']],
  'passed-on': [['to', 'add to: and whom the vehicle goes to']],
};

/** `closed` says how the job ended; whoever closes it without a repair gives a reason and a name. */
const checkResult = (entry: Node, did: Verb, sink: Sink): LogEntry['closing'] => {
  const node = get(entry, 'result');
  const closing = closings.find((one) => one === textOf(node)) ?? null;
  if (node === undefined || closing === null) return null;
  if (did !== 'closed') {
    const message = `${quoted(closing)} is how a job is closed, and no result of what was ${did}`;
    sink.add('wrong-value', node, message, 'write passed or failed');
    return null;
  }
  const absent = closing === 'repaired' ? [] : ['reason', 'by'].filter((key) => !get(entry, key));
  if (absent.length > 0) {
    const message = `a job that is closed as ${closing} says why, and who says so`;
    sink.add('missing-key', entry, message, `add ${absent.map((key) => `${key}: …`).join(', ')}`);
  }
  return closing;
};

/** Only these entries wait for a hold point, and whoever writes one in spite of it says so with a name. */
const checkDespite = (entry: Node, did: Verb, sink: Sink): void => {
  const node = get(entry, 'despite');
  if (node === undefined) return;
  if (!heldVerbs.includes(did)) {
    const message = `no hold point waits for what was ${did}`;
    sink.add('wrong-value', node, message, `leave despite: out; it stands beside ${heldVerbs.join(', ')}`);
  } else if (!get(entry, 'by')) {
    sink.add('missing-key', entry, 'an entry despite its hold point says who decided it', 'add by: …');
  }
};

const checkEntry = (node: Node, did: Verb, whatNode: Node | undefined, scope: LogScope): void => {
  const what = textOf(whatNode);
  if (whatNode && what !== undefined) {
    if (did === 'skipped') checkSkipped(whatNode, what, scope);
    else checkWhat(whatNode, what, did, scope);
    if (did === 'tested') checkTest(node, whatNode, what, scope);
    if (did === 'inspected') checkSight(node, what, scope);
  } else if (
    workVerbs.includes(did) ||
    did === 'completed' ||
    did === 'cleared' ||
    did === 'drove' ||
    did === 'skipped'
  ) {
    scope.sink.add(
      'missing-key',
      node,
      `the log does not say what was ${did}`,
      'add what: and a component, a step, codes or road-test',
    );
  }
  checkDespite(node, did, scope.sink);
  for (const [key, hint] of wanting[did] ?? []) {
    if (get(node, key)) continue;
    const message = `the log does not say ${key === 'to' ? 'to whom it was passed on' : `why it was ${did}`}`;
    scope.sink.add('missing-key', node, message, hint);
  }
};

const readEntry = (node: Node, order: number, scope: LogScope): LogEntry | null => {
  const at = get(node, 'at');
  const stamp = at ? scope.timeAt(at) : null;
  const text = (key: string): string | null => textOf(get(node, key)) ?? null;
  const didText = text('did');
  const did = verbs.find((verb) => verb === didText);
  if (did) checkEntry(node, did, get(node, 'what'), scope);
  const closing = did ? checkResult(node, did, scope.sink) : null;
  if (!stamp || !did) return null;
  return {
    stamp,
    order,
    did,
    what: text('what'),
    failed: text('result') === 'failed',
    found: text('found'),
    waitsFor: text('for'),
    note: text('note'),
    closing,
    to: text('to'),
    by: text('by'),
    reason: text('reason'),
    despite: text('despite'),
  };
};

/** The log in the file's order; names that nothing defines are errors where a step or a reading would hang on them. */
export const readLog = (node: Node | undefined, scope: LogScope): readonly LogEntry[] =>
  inFileOrder(
    itemsOf(node)
      .map((item, index) => readEntry(item, index, scope))
      .filter((entry) => entry !== null),
  );
