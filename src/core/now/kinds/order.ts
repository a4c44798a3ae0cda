import type { Fault } from '../../loop/faults.ts';
import type { Reason } from '../../worksheet-parts.ts';
import { logged } from '../command.ts';
import type { Now } from '../now.ts';
import type { NowGround } from '../now-ground.ts';
import { decline } from './decide.ts';

/** How a fault came to be confirmed, as a reason. */
export const proofReasons = ({ title, proof, returned }: Fault): Reason[] => {
  const back: Reason[] = returned
    ? [{ kind: 'returned', title, did: returned.did, at: returned.stamp.at }]
    : [];
  if (proof.by === 'sight') {
    const { stamp, by } = proof.entry;
    return [{ kind: 'fault-seen', title, at: stamp.at, by }, ...back];
  }
  return proof.by === 'test'
    ? [{ kind: 'fault-tested', title, test: proof.test, found: proof.found }, ...back]
    : [{ kind: 'fault-advised', title, probability: proof.probability }, ...back];
};

/** Whether a part was ordered or is there, and nobody has fitted it or sent it back since. */
export const isUnderWay = (component: string, { job }: NowGround): boolean => {
  const last = job.log.findLast(
    ({ did, what, failed }) =>
      what === component &&
      !failed &&
      ['ordered', 'received', 'replaced', 'repaired', 'declined'].includes(did),
  );
  return last?.did === 'ordered' || last?.did === 'received';
};

/** The part of a confirmed fault, once its hold point is clear. */
export const order = (ground: NowGround): Now | null => {
  const point = ground.holdPoints.find(({ id }) => id === 'order-part');
  if (point && !point.clear) return null;
  const fault = ground.faults.find(
    ({ isPart, lacks, component }) => isPart && lacks.length === 0 && !isUnderWay(component, ground),
  );
  if (!fault) return null;
  const { component, title } = fault;
  return {
    kind: 'order',
    id: component,
    title: { kind: 'order', part: title },
    because: proofReasons(fault),
    minutes: 0,
    elapsed: 0,
    cautions: point?.cautions ?? [],
    command: logged('ordered', component),
    instead: [logged('received', component), decline(component)],
    for: 'parts',
  };
};
