import type { Instant, Job, State } from '../../core/job.ts';
import type { Change } from '../../input/edit/change.ts';
import { type Pair, text, type Value } from '../../input/edit/value.ts';
import type { Assignment } from '../../input/typed/assignment.ts';
import { right, type Typed, type TypedFault, under, wrong } from '../../input/typed/typed.ts';
import { type Part, snapshotValue, typedParts } from '../../input/typed/typed-snapshot.ts';
import { typedState } from '../../input/typed/typed-state.ts';
import { typedText } from '../../input/typed/typed-text.ts';
import { type TypedTime, typedTime, writtenTime } from '../../input/typed/typed-time.ts';
import { freeName } from '../../input/usual/snapshot.ts';
import { entriesOf, get, itemsOf, type Node, textOf } from '../../input/yaml/tree.ts';
import type { OpenJob } from '../open-job.ts';

/** What somebody typed of one snapshot. */
export interface SnapshotRequest {
  readonly state: string;
  readonly assignments: readonly Assignment[];
  /** As typed; now where absent. */
  readonly at?: string;
  readonly id?: string;
  /** Repeat the conditions of the last snapshot. */
  readonly last: boolean;
  readonly note?: string;
  /** What counts as now, in the job's zone. */
  readonly now: Instant;
  /** True where only the minute of `now` is known. */
  readonly toMinute: boolean;
}

export interface PlannedSnapshot {
  readonly id: string;
  readonly at: TypedTime;
  readonly state: State;
  readonly parts: readonly Part[];
  /** Conditions taken over from the snapshot before. */
  readonly repeated: { readonly from: string; readonly pairs: readonly Pair[] } | null;
  readonly change: Change;
}

/** The first name that no snapshot has: the state, then the state with a number. */
export const freeId = (state: string, job: Job): string =>
  freeName(state, new Set(job.snapshots.map(({ id }) => id)));

const typedId = (typed: string | undefined, state: string, job: Job): Typed<string> => {
  if (typed === undefined) return right(freeId(state, job));
  if (!/^[A-Za-z0-9][A-Za-z0-9._-]{0,119}$/u.test(typed)) {
    return wrong(
      `--id ${typed}`,
      'this is not a short name',
      'write letters, digits, dots and dashes, such as as-found',
    );
  }
  const taken = job.snapshots.some(({ id }) => id === typed);
  return taken
    ? wrong(`--id ${typed}`, 'another snapshot has this name', `write another, such as ${freeId(typed, job)}`)
    : right(typed);
};

/** A condition as it stands in the file, to be written once more. */
const conditionPair = (key: string, node: Node): Pair[] => {
  const typed = textOf(node);
  if (node.kind !== 'scalar' || typed === undefined) return [];
  const value: Value = typeof node.value === 'string' ? text(typed) : { kind: 'bare', text: typed };
  return [[key, value]];
};

/** How long it rested and what was switched on is true of one moment, and is not repeated. */
const ofTheMoment: ReadonlySet<string> = new Set([
  'rested',
  'asleep',
  'surface-charge',
  'heavy-load',
  'idle',
  'compressor',
  'mode',
  'on-stops',
]);

/** The conditions of the newest snapshot that states any, as they are typed there. */
const lastConditions = (root: Node, job: Job, before: Instant): PlannedSnapshot['repeated'] => {
  const nodes = itemsOf(get(root, 'snapshots'));
  const stamped = job.snapshots
    .filter(({ stamp }) => stamp.at <= before)
    .map(({ id, stamp }) => ({
      id,
      at: stamp.at,
      node: nodes.find((node) => textOf(get(node, 'id')) === id),
    }));
  const newestFirst = stamped.sort((a, b) => b.at - a.at);
  for (const { id, node } of newestFirst) {
    const pairs = entriesOf(get(node, 'conditions'))
      .filter(({ key }) => !key.startsWith('x-') && !ofTheMoment.has(key))
      .flatMap(({ key, node: value }) => conditionPair(key, value));
    if (pairs.length > 0) return { from: id, pairs };
  }
  return null;
};

/** A snapshot to be written, or everything that is wrong with what was typed of it. */
export const planSnapshot = (
  { read }: OpenJob,
  request: SnapshotRequest,
): PlannedSnapshot | { readonly faults: readonly TypedFault[] } => {
  const { job, form, prepared } = read;
  if (job === null || form === null) throw new Error('a job with problems is not added to');
  const faults: TypedFault[] = [];
  const keep = <T>(typed: Typed<T>): T | null => {
    if (typed.ok) return typed.value;
    faults.push(typed.fault);
    return null;
  };
  const state = keep(typedState(request.state));
  const at =
    request.at === undefined
      ? writtenTime(request.now, job.zone, request.toMinute)
      : keep(under('--at', typedTime(request.at, job.zone, request.now)));
  const note = request.note === undefined ? null : keep(typedText(request.note, '--note'));
  const id = keep(typedId(request.id, state ?? 'key-on', job));
  const { parts, faults: wrongParts } = typedParts(
    request.assignments,
    prepared.channelById,
    job.instruments,
  );
  faults.push(...wrongParts);
  const repeated = request.last ? lastConditions(form.root, job, at?.at ?? request.now) : null;
  if (request.last && repeated === null) {
    faults.push({
      typed: '--last',
      message: 'no earlier snapshot states any conditions',
      hint: 'type them, such as floor=level',
    });
  }
  if (state === null || at === null || id === null || faults.length > 0) return { faults };
  const value = snapshotValue({ id, at: at.text, state }, parts, repeated?.pairs, note);
  return { id, at, state, parts, repeated, change: { kind: 'append', to: ['snapshots'], items: [value] } };
};
