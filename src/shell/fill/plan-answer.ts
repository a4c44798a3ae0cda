import type { Instant, State } from '../../core/job.ts';
import type { Change } from '../../input/edit/change.ts';
import { braces, text, type Value } from '../../input/edit/value.ts';
import type { Way } from '../../input/edit/way.ts';
import { type Part, snapshotValue } from '../../input/typed/typed-snapshot.ts';
import { writtenTime } from '../../input/typed/typed-time.ts';
import { get, textOf } from '../../input/yaml/tree.ts';
import { freeId } from '../entry/plan-snapshot.ts';
import type { OpenJob } from '../open-job.ts';
import type { Understood } from './understand.ts';

/** Where an answer goes, and the snapshot that it then stands in; null for the vehicle. */
export interface PlannedAnswer {
  readonly change: Change;
  readonly snapshot: string | null;
}

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

const into = (above: Way, part: Part): Change => {
  const way = [...above, ...wayOf(part)];
  if (part.name.kind !== 'codes') return { kind: 'put', at: way, value: part.value };
  if (part.value.kind === 'list') {
    const none: Value = { kind: 'list', items: [], style: 'flow' };
    return { kind: 'put', at: way, value: none };
  }
  return { kind: 'append', to: way, items: [part.value] };
};

/** A fact of the vehicle, of which the file may say no more than its name. */
export const planFact = (
  { read }: OpenJob,
  { fact, value }: Extract<Understood, { kind: 'fact' }>,
): PlannedAnswer => {
  const vehicle = get(read.root ?? undefined, 'vehicle');
  const name = textOf(vehicle);
  const change: Change =
    name === undefined
      ? { kind: 'put', at: ['vehicle', fact], value }
      : {
          kind: 'set',
          at: ['vehicle'],
          value: braces([
            ['name', text(name)],
            [fact, value],
          ]),
          remark: null,
        };
  return { change, snapshot: null };
};

/** A part put into a snapshot that is there; null where it is not. */
export const planInto = ({ read }: OpenJob, part: Part, id: string): PlannedAnswer | null => {
  const above = read.form?.ways.get(id);
  return above === undefined ? null : { change: into(above, part), snapshot: id };
};

/** A part that begins a snapshot. */
export const planAnew = (
  { read }: OpenJob,
  part: Part,
  state: State,
  now: Instant,
  toMinute: boolean,
): PlannedAnswer => {
  const { job } = read;
  if (job === null) throw new Error('a job with problems is not added to');
  const id = freeId(state, job);
  const at = writtenTime(now, job.zone, toMinute).text;
  const value = snapshotValue({ id, at, state }, [part]);
  return { change: { kind: 'append', to: ['snapshots'], items: [value] }, snapshot: id };
};
