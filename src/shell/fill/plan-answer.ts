import type { Instant, State } from '../../core/job.ts';
import type { Change } from '../../input/edit/change.ts';
import type { Value } from '../../input/edit/value.ts';
import type { Way } from '../../input/edit/way.ts';
import { type Part, snapshotValue } from '../../input/typed/typed-snapshot.ts';
import { writtenTime } from '../../input/typed/typed-time.ts';
import { get, itemsOf, type Node, textOf } from '../../input/yaml/tree.ts';
import { freeId } from '../entry/plan-snapshot.ts';
import type { OpenJob } from '../open-job.ts';

/** Where an answer goes, and the snapshot that it then stands in. */
export interface PlannedAnswer {
  readonly change: Change;
  readonly snapshot: string;
}

const indexOf = (root: Node, id: string): number =>
  itemsOf(get(root, 'snapshots')).findIndex((node) => textOf(get(node, 'id')) === id);

/** Where a part stands within its snapshot. */
const wayOf = ({ name }: Part): Way => {
  switch (name.kind) {
    case 'reading':
      return ['readings', name.channel.id, ...(name.corner === null ? [] : [name.corner])];
    case 'condition':
      return ['conditions', name.name];
    case 'lamp':
      return ['lamp'];
    case 'codes':
      return ['codes'];
  }
};

const into = (index: number, part: Part): Change => {
  const way = ['snapshots', index, ...wayOf(part)];
  if (part.name.kind !== 'codes') return { kind: 'put', at: way, value: part.value };
  if (part.value.kind === 'list') {
    const none: Value = { kind: 'list', items: [], style: 'flow' };
    return { kind: 'put', at: way, value: none };
  }
  return { kind: 'append', to: way, items: [part.value] };
};

/**
 * An answer put into the snapshot of the session, or into a new one where there is none yet.
 *
 * @param session the snapshot that answers of this state go to; null to begin one
 */
export const planAnswer = (
  { read }: OpenJob,
  part: Part,
  state: State,
  session: string | null,
  now: Instant,
  toMinute: boolean,
): PlannedAnswer => {
  const { job, root } = read;
  if (job === null || root === null) throw new Error('a job with problems is not added to');
  const index = session === null ? -1 : indexOf(root, session);
  if (session !== null && index >= 0) return { change: into(index, part), snapshot: session };
  const id = freeId(state, job);
  const at = writtenTime(now, job.zone, toMinute).text;
  const value = snapshotValue({ id, at, state }, [part]);
  return { change: { kind: 'append', to: ['snapshots'], items: [value] }, snapshot: id };
};
