import { isWork } from '../steps/staleness.ts';
import type { Now } from './now.ts';
import type { NowGround } from './now-ground.ts';
import { toRead, wordsOf } from './reading.ts';

/** Whether the body still stands on its stops, once after work that may have lifted it. */
export const readStops = (ground: NowGround): Now | null => {
  const { job, dangers } = ground;
  const danger = dangers.find(({ id }) => id === 'on-stops');
  const worked = job.log.findLast(isWork)?.stamp.at ?? Number.NEGATIVE_INFINITY;
  if (!danger || worked <= danger.since) return null;
  const isStated = job.snapshots.some(
    ({ stamp, conditions }) => stamp.at > worked && conditions.words['on-stops'] !== undefined,
  );
  if (isStated) return null;
  const conditions = [{ name: 'on-stops', wants: wordsOf('on-stops') }];
  const session = { state: 'key-on' as const, readings: [], lamp: false, codes: false, conditions };
  return toRead('read', 'on-stops', session, [{ kind: 'forbidden', acts: danger.forbids }], ground);
};
