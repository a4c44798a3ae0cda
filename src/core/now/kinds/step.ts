import type { LogEntry } from '../../job.ts';
import { matchesAny } from '../../steps/log-entries.ts';
import type { WorksheetStep } from '../../worksheet-parts.ts';
import { type Command, logged, say } from '../command.ts';
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

const nameOf = ({ id }: WorksheetStep, { prepared }: NowGround): string =>
  prepared.steps.find((step) => step.id === id)?.name ?? id;

/** What failed so often in a row is not tried again before somebody else has had it. Judgement. */
const mostFailures = 2;

/** Who does a step that keeps failing: null while it may be tried, `somebody` before and `others` after it is passed on. */
const keepsFailing = (step: WorksheetStep, ground: NowGround): 'somebody' | 'others' | null => {
  const own = ground.prepared.steps.find(({ id }) => id === step.id);
  if (!own) return null;
  const isAttempt = (entry: LogEntry): boolean => matchesAny(entry, own.answeredBy);
  // Other work that undoes the step lets it be tried anew.
  const undone = ground.job.log.findLastIndex(
    (entry) => matchesAny(entry, own.undoneBy) && !isAttempt(entry),
  );
  const log = ground.job.log.slice(undone + 1);
  const attempts = log.filter(isAttempt);
  const last = attempts.at(-1);
  if (!last || attempts.slice(-mostFailures).filter(({ failed }) => failed).length < mostFailures)
    return null;
  const names = [own.name, own.id];
  const isPassedOn = log
    .slice(log.indexOf(last))
    .some(({ did, what }) => did === 'passed-on' && names.includes(what ?? ''));
  return isPassedOn ? 'others' : 'somebody';
};

const commandsOf = (step: WorksheetStep, ground: NowGround): readonly [Command, ...Command[]] => {
  const name = nameOf(step, ground);
  const usual = stepCommand(step, ground);
  const skip = logged('skipped', name, say('reason'));
  switch (keepsFailing(step, ground)) {
    case 'somebody':
      return [logged('passed-on', name, say('to'), say('by')), usual, skip];
    case 'others':
      return [logged('completed', name, say('by')), usual, skip];
    case null:
      return usual.kind === 'log' && usual.did === 'skipped' ? [usual] : [usual, skip];
  }
};

const toStep = (step: WorksheetStep, ground: NowGround): Now => {
  const [command, ...instead] = commandsOf(step, ground);
  return {
    kind: 'step',
    id: step.id,
    title: { kind: 'given', text: step.title },
    because: step.because,
    minutes: step.minutes,
    elapsed: 0,
    cautions: step.cautions,
    command,
    instead,
    for: command.kind === 'log' && command.did === 'passed-on' ? 'desk' : 'technician',
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
  return {
    ...toStep(next, ground),
    because: [{ kind: 'no-equipment', needs: next.needs ?? '' }],
    command: logged('completed', nameOf(next, ground), say('by')),
    for: 'desk',
  };
};
