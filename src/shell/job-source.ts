import { basename, extname } from 'node:path';
import type { JobSource } from '../input/job/job-context.ts';
import type { AsOf } from './as-of.ts';
import { savedAt } from './disk/on-disk.ts';
import type { Io } from './io.ts';

/** A name for a job from that of its file. */
export const jobNameOf = (path: string): string =>
  basename(path, extname(path)).replace(/\p{C}/gu, '').slice(0, 120) || 'job';

/**
 * What a job that leaves it out is taken to be, from its file. Each is looked up only where a job asks for it.
 *
 * @param path null for a job on standard input
 * @param asOf the instant that the job is judged at: what was read before it was not saved after it
 */
export const jobSource = (
  path: string | null,
  io: Pick<Io, 'zone' | 'now'>,
  asOf: AsOf | null,
): JobSource => ({
  name: path === null ? 'job' : jobNameOf(path),
  zone: () => io.zone,
  savedAt: (zone) => {
    const latest = asOf?.(zone) ?? io.now();
    const saved = path === null ? null : savedAt(path);
    return saved === null ? latest : Math.min(saved, latest);
  },
});
