import { proofReasons } from '../../loop/fault-reasons.ts';
import { access } from '../../steps/money-facts.ts';
import type { WorksheetStep } from '../../worksheet-parts.ts';
import { logged, say } from '../command.ts';
import type { Now } from '../now.ts';
import type { NowGround } from '../now-ground.ts';
import { decline } from './decide.ts';

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

/** Whether a step waits for nothing but access, of its own or for its hold point. */
const waitsForAccess = ({ waitsFor }: WorksheetStep, { holdPoints }: NowGround): boolean =>
  waitsFor.every(
    (id) =>
      id.startsWith('access/') ||
      holdPoints.some(
        (point) =>
          id === `hold-point/${point.id}` && point.reasons.every(({ kind }) => kind === 'access-closed'),
      ),
  );

/** Access that the next step wants and that is not open: bought only once nothing else stands before the step. */
const accessFor = (ground: NowGround): Now | null => {
  const next = ground.steps.find((step) => step.state === 'waiting' && waitsForAccess(step, ground));
  if (!next?.needs) return null;
  const { holds, reasons } = access({ fact: 'access', capability: next.needs }, ground.facts);
  const closed = reasons.find((reason) => reason.kind === 'access-closed');
  if (holds || closed?.kind !== 'access-closed') return null;
  const { capability, equipment, amount, currency, ended } = closed;
  return {
    kind: 'order',
    id: `access/${capability}`,
    title: { kind: 'buy-access', capability, equipment, amount, currency, again: ended !== null },
    because: reasons,
    minutes: 0,
    elapsed: 0,
    cautions: [],
    command: logged('ordered', capability),
    instead: [logged('passed-on', capability, say('to'))],
    for: 'desk',
  };
};

/** The part of a confirmed fault, once its hold point is clear, or access to what a step needs. */
export const order = (ground: NowGround): Now | null => partOf(ground) ?? accessFor(ground);

const partOf = (ground: NowGround): Now | null => {
  const point = ground.holdPoints.find(({ id }) => id === 'order-part');
  if (point && !point.clear && point.holds) return null;
  const fault = ground.faults.find(
    ({ isPart, lacks, component, spent }) =>
      isPart && !spent && lacks.length === 0 && !isUnderWay(component, ground),
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
