import { isCorner } from '../corner.ts';
import type { Job, Snapshot } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Reason } from '../worksheet-parts.ts';
import type { Fact } from './condition.ts';
import { type Answer, type Ground, no, yes } from './ground.ts';
import { findingReason } from './reasons.ts';
import { isWork } from './staleness.ts';

type Asked<K extends Fact['fact']> = Extract<Fact, { fact: K }>;

/** Whether a snapshot states a condition as one of some words: any snapshot, or the newest that states it. */
export const stated = ({ words, newest }: Asked<'stated'>, { job }: Ground): Answer => {
  for (const [condition, any] of Object.entries(words)) {
    const wordAt = ({ conditions }: Snapshot): string | undefined =>
      conditions.words[condition as keyof typeof conditions.words];
    const found = job.snapshots.findLast((one) => {
      const word = wordAt(one);
      return word !== undefined && (newest || (any ?? []).includes(word));
    });
    const word = found && wordAt(found);
    if (found && word !== undefined && (any ?? []).includes(word))
      return yes(found.stamp.at, { kind: 'stands', condition, word });
  }
  return no({
    kind: 'conditions-wanted',
    wants: Object.entries(words).map(([condition, any]) => `${condition} ${(any ?? []).join(' or ')}`),
  });
};

const valueIn = (snapshot: Snapshot | undefined, key: string): number | null => {
  const reading = snapshot?.readings.get(key);
  const [first] = reading?.kind === 'values' ? reading.values : [];
  return first?.value ?? null;
};

/** Whether a channel reads otherwise at any place after the last work than before the first. */
export const moved = ({ channel, over }: Asked<'moved'>, { job }: Ground): Answer => {
  const { snapshots, log }: Job = job;
  const first = log.find(isWork)?.stamp.at;
  const last = log.findLast(isWork)?.stamp.at;
  if (first === undefined || last === undefined) return no();
  const keys = new Set(snapshots.flatMap(({ readings }) => [...readings.keys()]));
  for (const key of keys) {
    if (parseKey(key).base !== channel || !isCorner(parseKey(key).corner ?? '')) continue;
    const before = valueIn(
      snapshots.findLast(({ stamp, readings }) => stamp.at <= first && readings.has(key)),
      key,
    );
    const newest = snapshots.findLast(({ stamp, readings }) => stamp.at > last && readings.has(key));
    const after = valueIn(newest, key);
    if (before !== null && after !== null && Math.abs(after - before) > over)
      return yes(newest?.stamp.at ?? null, { kind: 'moved', channel: key, by: after - before });
  }
  return no();
};

/** Whether a confirmed fault is left. */
export const faults = ({ is }: Asked<'faults'>, ground: Ground): Answer => {
  const open = ground.faults.map(({ title }): Reason => ({ kind: 'fault-open', title }));
  if (is === 'none') return open.length === 0 ? yes() : no(...open);
  return open.length > 0 ? yes(null, ...open) : no({ kind: 'no-fault' });
};

/** Whether everything that was out before the work is within after it, in the same state. */
export const proof = ({ retests }: Ground): Answer => {
  const open = retests.flatMap(({ out, unlike }): Reason[] => [
    ...unlike.map(({ state, conditions }): Reason => ({ kind: 'retest-unlike', state, conditions })),
    ...out.map(findingReason),
  ]);
  return open.length === 0 ? yes() : no(...open);
};
