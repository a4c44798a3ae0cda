import type { Reason } from '../worksheet-parts.ts';
import type { Fault } from './faults.ts';

/** How a fault came to be confirmed, as reasons. */
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
