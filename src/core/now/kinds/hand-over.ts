import { logged, say } from '../command.ts';
import type { Now } from '../now.ts';
import { isTroubled, type NowGround, stepNamed } from '../now-ground.ts';

/** Nothing else is open, and the release is clear. */
export const handOver = (ground: NowGround): Now | null => {
  const { holdPoints, faults } = ground;
  const release = holdPoints.find(({ id }) => id === 'release');
  const step = stepNamed('hand-over', ground);
  const isWaiting = step?.state === 'waiting';
  if (faults.length > 0 || isTroubled(ground) || isWaiting || release?.clear === false) return null;
  return {
    kind: 'hand-over',
    id: step?.id ?? 'hand-over',
    title: { kind: 'given', text: step?.title ?? 'Hand over the vehicle and its record' },
    because: [{ kind: 'nothing-open' }],
    minutes: step?.minutes ?? 0,
    elapsed: 0,
    cautions: step?.cautions ?? [],
    command: logged('released', 'vehicle', say('by')),
    instead: [],
    for: 'technician',
  };
};
