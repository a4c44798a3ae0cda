import type { Instant, Job, Snapshot, State } from '../../core/job.ts';
import { isWork, mayFollow } from '../../core/steps/staleness.ts';

/** A scan session: readings that lie further apart were not taken together. */
const longestPause = 30 * 60_000;

/** Whether something happened to the vehicle after a snapshot, so that newer readings are not of the same moment. */
const disturbed = ({ stamp }: Snapshot, { log }: Job): boolean =>
  log.some(
    (entry) =>
      mayFollow(entry, stamp.at) && (isWork(entry) || entry.did === 'cleared' || entry.did === 'drove'),
  );

/**
 * Whether a reading taken now belongs to the moment of a snapshot: it was begun, or gone on with, a short while ago,
 * and nothing was done to the vehicle since.
 *
 * @param lastAnswer when the session last put something into a snapshot
 */
export const isOneMoment = (
  snapshot: Snapshot,
  job: Job,
  now: Instant,
  lastAnswer: Instant | null,
): boolean => now - Math.max(snapshot.stamp.at, lastAnswer ?? 0) <= longestPause && !disturbed(snapshot, job);

/**
 * The snapshot that an interrupted session goes on with: the newest of its state, if it was begun a short while ago
 * and nothing was done to the vehicle since.
 */
export const snapshotToGoOnWith = (state: State, job: Job, now: Instant): Snapshot | null => {
  const newest = job.snapshots
    .filter((one) => one.state === state && one.stamp.at <= now)
    .sort((a, b) => a.stamp.at - b.stamp.at)
    .at(-1);
  if (!newest || now - newest.stamp.at > longestPause || disturbed(newest, job)) return null;
  return newest;
};

/** Whether a snapshot already says something of a name. */
export const alreadySays = (
  snapshot: Snapshot,
  name: { readonly kind: string; readonly key?: string; readonly name?: string },
): boolean => {
  switch (name.kind) {
    case 'reading':
      return snapshot.readings.has(name.key ?? '');
    case 'lamp':
      return snapshot.lamp !== null;
    case 'codes':
      return snapshot.codes !== null;
    default: {
      const stated: Readonly<Record<string, unknown>> = {
        ...snapshot.conditions,
        ...snapshot.conditions.words,
      };
      return stated[name.name ?? ''] !== undefined && stated[name.name ?? ''] !== null;
    }
  }
};

/**
 * A condition as it was typed of another snapshot a short while before or after, so that nobody types it twice; the
 * nearest counts.
 *
 * @param at the time of the readings that it is asked for
 * @param own the snapshot that it is asked for; null for one that is taken now
 */
export const asBefore = (name: string, job: Job, at: Instant, own: string | null = null): string => {
  const away = ({ stamp }: Snapshot): number => Math.abs(stamp.at - at);
  const recent = job.snapshots
    .filter((one) => one.id !== own && away(one) <= longestPause && (own !== null || one.stamp.at <= at))
    .sort((a, b) => away(a) - away(b));
  for (const { conditions } of recent) {
    const words: Readonly<Record<string, string | undefined>> = conditions.words;
    const quantities: Readonly<Record<string, { readonly text: string } | null | undefined>> = {
      air: conditions.air,
      barometer: conditions.barometer,
      altitude: conditions.altitude,
    };
    const stated = words[name] ?? quantities[name]?.text;
    if (stated !== undefined) return stated;
  }
  return '';
};
