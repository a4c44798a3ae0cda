import { type Instant, type LogEntry, repairVerbs, workVerbs } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Channel } from '../pack.ts';

export const isWork = (entry: LogEntry): boolean => workVerbs.includes(entry.did);

/** Whether an entry is work that puts a component right. */
export const isRepair = ({ did, what }: LogEntry): boolean => what !== null && repairVerbs.includes(did);

/** Charging mends nothing: what a battery read before it still tells what is wrong. */
export const mends = ({ did }: LogEntry): boolean => did !== 'charged';

/** Whether an entry came after another; of one time the file's order decides. */
export const isLater = (entry: LogEntry, other: LogEntry): boolean =>
  entry.stamp.at === other.stamp.at ? entry.order > other.order : entry.stamp.at > other.stamp.at;

/** Whether an entry may have been after an instant: its time is known to its resolution only. */
export const mayFollow = ({ stamp }: LogEntry, at: Instant): boolean => stamp.at + stamp.resolution > at;

/**
 * Whether work on a component disturbs a channel: the channel names the component's base, and where both sit at
 * a corner it is the same corner.
 */
export const disturbs = (component: string, channelKey: string, channel: Channel): boolean => {
  const worked = parseKey(component);
  const read = parseKey(channelKey);
  if (!channel.depends.includes(worked.base)) return false;
  // What is shared and only read at several places is disturbed by work at any of them.
  if (channel.per === 'either') return true;
  return worked.corner === null || read.corner === null || worked.corner === read.corner;
};

/**
 * The first work since `at` on anything that the channels depend on, or null: evidence older than it is stale.
 * Failed work disturbs as much as good work. Work that its typed time leaves open to have been after the reading
 * counts as after it, since nothing shows that it was before.
 */
export const staleSince = (
  log: readonly LogEntry[],
  channels: ReadonlyMap<string, Channel>,
  keys: readonly string[],
  at: Instant,
): LogEntry | null =>
  log.find(
    (entry) =>
      isWork(entry) &&
      mayFollow(entry, at) &&
      entry.what !== null &&
      keys.some((key) => {
        const channel = channels.get(parseKey(key).base);
        return channel !== undefined && disturbs(entry.what ?? '', key, channel);
      }),
  ) ?? null;
