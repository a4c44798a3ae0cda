import { stillToTake } from '../../wanted/still-to-take.ts';
import type { Now } from '../now.ts';
import { mayBe, type NowGround } from '../now-ground.ts';
import { easiest, toRead } from '../reading.ts';

/** What work disturbed is read again, in the states in which it was judged before. */
export const retest = (ground: NowGround): Now | null => {
  const ready = ground.steps.filter(({ id, state }) => id.startsWith('readings/') && state === 'ready');
  const state = easiest.find((one) => ready.some(({ id }) => id === `readings/${one}`) && mayBe(one, ground));
  const step = ready.find(({ id }) => id === `readings/${state}`);
  const session = stillToTake(ground, ground.prepared).find((one) => one.state === state);
  if (!step || !session) return null;
  const conditions = session.conditions.map(({ name }) => name);
  return toRead('retest', step.id, { ...session, conditions }, step.because, ground);
};
