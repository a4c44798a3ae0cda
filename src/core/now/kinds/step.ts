import type { WorksheetStep } from '../../worksheet-parts.ts';
import { logged, say } from '../command.ts';
import type { Now } from '../now.ts';
import type { NowGround } from '../now-ground.ts';
import { toRead } from '../reading.ts';
import { byFinding, stepCommand } from '../step-command.ts';

const handOver = /\/hand-over$/u;
const ofOthers: readonly string[] = ['readings', 'repair', 'retest'];

/** Steps that another kind speaks for. */
const isOwn = ({ id, base, due }: WorksheetStep): boolean =>
  !ofOthers.includes(base) && !handOver.test(id) && due === null;

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

/** What the hold point of a step still wants read. */
export const forHoldPoint = (ground: NowGround): Now | null => {
  for (const { state, waitsFor, base } of ground.steps) {
    if (state !== 'waiting' || base === 'hand-over') continue;
    const [only, ...others] = waitsFor;
    const point = ground.holdPoints.find(({ id }) => only === `hold-point/${id}`);
    const session = point && others.length === 0 ? byFinding(point.reasons, ground) : null;
    if (point && session) return toRead('step', `hold-point/${point.id}`, session, point.reasons, ground);
  }
  return null;
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
