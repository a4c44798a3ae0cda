import type { WorksheetStep } from '../../worksheet-parts.ts';
import { logged, say } from '../command.ts';
import type { Now } from '../now.ts';
import type { NowGround } from '../now-ground.ts';
import { stepCommand } from '../step-command.ts';

const handOver = /\/hand-over$/u;

/** Steps that another kind speaks for. */
const isOwn = ({ id }: WorksheetStep): boolean => !id.startsWith('readings/') && !handOver.test(id);

const isAllowed = ({ id }: WorksheetStep, { prepared, forbidden }: NowGround): boolean => {
  const acts = prepared.steps.find((step) => step.id === id)?.acts ?? [];
  return !acts.some((act) => forbidden.has(act));
};

const toStep = (step: WorksheetStep, ground: NowGround): Now => {
  const name = ground.prepared.steps.find(({ id }) => id === step.id)?.name ?? step.id;
  const command = stepCommand(step, ground);
  const skip = logged('skipped', name, say('reason'));
  return {
    kind: 'step',
    id: step.id,
    title: { kind: 'given', text: step.title },
    because: step.because,
    minutes: step.minutes,
    elapsed: 0,
    cautions: step.cautions,
    command,
    instead: command.kind === 'log' && command.did === 'skipped' ? [] : [skip],
    for: 'technician',
  };
};

/** The next outstanding step that can be begun. */
export const step = (ground: NowGround): Now | null => {
  const next = ground.steps.find((one) => one.state === 'ready' && isOwn(one) && isAllowed(one, ground));
  return next ? toStep(next, ground) : null;
};

/** A step that waits for nothing but equipment which nobody here has. */
export const elsewhere = (ground: NowGround): Now | null => {
  const next = ground.steps.find(
    ({ state, waitsFor }) => state === 'waiting' && waitsFor.every((id) => id.startsWith('equipment/')),
  );
  if (!next) return null;
  const name = ground.prepared.steps.find(({ id }) => id === next.id)?.name ?? next.id;
  return {
    ...toStep(next, ground),
    because: [{ kind: 'no-equipment', needs: next.needs ?? '' }],
    command: logged('completed', name, say('by')),
    for: 'desk',
  };
};
