import type { Job, LogEntry } from '../job.ts';
import type { Step } from '../pack.ts';

/** Whom or what the newest `waiting` entry of a step names, unless something was logged of it since. */
export const waitsForSomebody = (
  { name, id }: Pick<Step, 'name' | 'id'>,
  { job }: { readonly job: Job },
): string[] => {
  const last = job.log.findLast(({ what }) => what === name || what === id);
  return last?.did === 'waiting' ? [last.waitsFor ?? 'something not named'] : [];
};

/** The `waiting` entries that nothing has followed on the same thing. */
export const openWaits = ({ log }: Job): LogEntry[] =>
  log.filter((entry) => entry.did === 'waiting' && log.findLast(({ what }) => what === entry.what) === entry);
