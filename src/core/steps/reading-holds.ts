import type { Finding, Missing } from '../finding.ts';
import { parseKey } from '../key.ts';
import type { Channel } from '../pack.ts';
import type { PreparedPacks } from '../prepare/prepared-packs.ts';
import type { Ground } from './ground.ts';
import { disturbs, isRepair } from './staleness.ts';

/** What of the packs tells which readings are wanted. */
export type ReadingPacks = Pick<PreparedPacks, 'channelById' | 'retest' | 'always'>;

/** What of the readings that checks miss is asked for. */
export interface Asking {
  readonly reading: (key: string, finding: Finding) => boolean;
  /** Of checks that had their readings and could say nothing of them. */
  readonly open: (missing: Missing) => boolean;
}

export const everything: Asking = { reading: () => true, open: () => true };

/** Whether a reading was taken since the last repair that disturbs it. */
const isReadSince = (key: string, { job }: Ground, channels: ReadonlyMap<string, Channel>): boolean => {
  const channel = channels.get(parseKey(key).base);
  const work = job.log.findLast(
    (entry) => isRepair(entry) && channel !== undefined && disturbs(entry.what ?? '', key, channel),
  );
  return (
    work === undefined ||
    job.snapshots.some(({ stamp, readings }) => stamp.at > work.stamp.at && readings.has(key))
  );
};

/** Whether a reading could not be taken, and a repair since may have changed that. */
const mayBeTakenNow = (key: string, { job }: Ground): boolean => {
  const newest = job.snapshots.findLast(({ readings }) => readings.has(key));
  const isUntaken = newest?.readings.get(key)?.kind === 'untaken';
  return isUntaken && job.log.some((entry) => isRepair(entry) && entry.stamp.at > newest.stamp.at);
};

/**
 * Readings that hold the release: those that a pack always wants, and those of what was repaired. Where no pack says
 * what it always wants, all do. What could not be taken, for a reason, is answered until something was
 * repaired; what cannot be as it was read is not.
 */
export const heldBy = (ground: Ground, { always, channelById }: ReadingPacks): Asking =>
  always === null
    ? everything
    : {
        reading: (key, { channels }) =>
          always.has(parseKey(key).base) || !channels.every((one) => isReadSince(one, ground, channelById)),
        open: (missing) =>
          missing.why === 'unbelievable' ||
          (missing.why === 'could-not-be-taken' &&
            always.has(parseKey(missing.channel).base) &&
            mayBeTakenNow(missing.channel, ground)),
      };
