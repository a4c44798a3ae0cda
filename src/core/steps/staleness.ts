import { type Instant, type LogEntry, workVerbs } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Channel } from '../pack.ts';

export const isWork = (entry: LogEntry): boolean => workVerbs.includes(entry.did);

/**
 * Whether work on a component disturbs a channel: the channel names the component's base, and where both sit at
 * a corner it is the same corner.
 */
export const disturbs = (component: string, channelKey: string, channel: Channel): boolean => {
  const worked = parseKey(component);
  const read = parseKey(channelKey);
  if (!channel.depends.includes(worked.base)) return false;
  return worked.corner === null || read.corner === null || worked.corner === read.corner;
};

/**
 * The first work since `at` on anything that the channels depend on, or null: evidence older than it is stale.
 * Failed work disturbs as much as good work. Work at the very time of the reading counts as after it, since
 * nothing shows that it was before.
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
      entry.stamp.at >= at &&
      entry.what !== null &&
      keys.some((key) => {
        const channel = channels.get(parseKey(key).base);
        return channel !== undefined && disturbs(entry.what ?? '', key, channel);
      }),
  ) ?? null;
