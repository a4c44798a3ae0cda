import type { Act } from '../acts.ts';
import type { Finding } from '../finding.ts';
import type { Instant, Job } from '../job.ts';
import { repairSteps, retestSteps } from '../loop/loop-steps.ts';
import type { HoldPoint, Step } from '../pack.ts';
import type { PreparedPacks } from '../prepare/prepared-packs.ts';
import type { Reason, WorksheetHoldPoint, WorksheetStep } from '../worksheet-parts.ts';
import { answer } from './answer.ts';
import { findingsAsked } from './findings-asked.ts';
import { bringing, type Ground } from './ground.ts';
import { access } from './money-facts.ts';
import { orderHolds } from './part-facts.ts';
import { readingSteps } from './readings-wanted.ts';
import { inOrder } from './step-order.ts';
import { type Standing, standings } from './step-state.ts';
import { waitsForSomebody } from './waiting.ts';

const isOutstanding = ({ needed, done }: Standing): boolean => needed && !done;

/** Whether a step waits for access that is paid for. */
const isClosedTo = ({ paidAccess, needs }: Step, ground: Ground): boolean =>
  paidAccess && needs !== null && !access({ fact: 'access', capability: needs }, ground).holds;

const day = 86_400_000;

/** When a step is due that is listed and holds nothing: so many days after what brought it. */
const dueOf = ({ step: { recheckDays } }: Standing, since: Instant | null): Instant | null =>
  recheckDays === null || since === null ? null : since + recheckDays * day;

/**
 * What an outstanding step waits for. A repair may be what ends a danger: it does not wait for what that forbids.
 *
 * @param possible outstanding steps that no danger forbids
 */
const waitsOf = (
  { step }: Standing,
  outstandingSteps: readonly Step[],
  possible: readonly Step[],
  closed: ReadonlySet<string>,
  unequipped: boolean,
  ground: Ground,
): string[] => [
  ...(step.base === 'repair' ? possible : outstandingSteps)
    .filter(({ name, base }) => step.after.includes(name) || step.after.includes(base))
    .map(({ id }) => id),
  ...(step.behind !== null && closed.has(step.behind) ? [`hold-point/${step.behind}`] : []),
  ...(unequipped ? [`equipment/${step.needs}`] : []),
  ...(isClosedTo(step, ground) ? [`access/${step.needs}`] : []),
  ...waitsForSomebody(step, ground),
];

/** Whether a step was given to somebody else. */
const isSublet = ({ name, id }: Step, { log }: Job): boolean =>
  log.some(({ did, what }) => did === 'passed-on' && (what === name || what === id));

const toWorksheetStep = (
  standing: Standing,
  outstandingSteps: readonly Step[],
  possible: readonly Step[],
  closed: ReadonlySet<string>,
  ground: Ground,
): WorksheetStep => {
  const { step, needed, done, because } = standing;
  const { equipment } = ground.job;
  const open = isOutstanding(standing);
  const unequipped =
    open &&
    step.needs !== null &&
    equipment !== null &&
    !equipment.some(({ does }) => does.includes(step.needs ?? '')) &&
    !isSublet(step, ground.job);
  const waitsFor = open ? waitsOf(standing, outstandingSteps, possible, closed, unequipped, ground) : [];
  return {
    id: step.id,
    base: step.base,
    title: step.title,
    state: done ? 'done' : !needed ? 'not-needed' : waitsFor.length > 0 ? 'waiting' : 'ready',
    waitsFor,
    because,
    minutes: step.minutes,
    elapsed: step.elapsed,
    due: dueOf(standing, standing.since),
    needs: step.needs,
    unequipped,
    points: step.points,
    cautions: step.cautions,
  };
};

/** That a check is not shown to be good is no news beside its finding that is out. */
const withoutEchoes = (reasons: readonly Reason[]): readonly Reason[] => {
  const out = reasons.flatMap((reason) => (reason.kind === 'finding' ? [reason.finding.split(':')[0]] : []));
  return reasons.filter((reason) => reason.kind !== 'finding-wanted' || !out.includes(reason.check));
};

/** What may not be driven may not leave, whatever else is in order. */
const forbidding = ({ id }: HoldPoint, forbidden: ReadonlySet<Act>): Reason[] =>
  id === 'release' && forbidden.has('drive') ? [{ kind: 'forbidden', acts: ['drive'] }] : [];

const judgeHoldPoint = (
  point: HoldPoint,
  ground: Ground,
  withFailed: Ground,
  forbidden: ReadonlySet<Act>,
): WorksheetHoldPoint | null => {
  if (point.when !== null && !answer(point.when, withFailed).holds) return null;
  const { holds, reasons } = answer(point.clearWhen, ground);
  const dangers = forbidding(point, forbidden);
  const clear = holds && dangers.length === 0;
  return {
    id: point.id,
    title: point.title,
    clear,
    holds: point.id !== 'order-part' || orderHolds(ground),
    reasons: clear ? [] : [...dangers, ...(holds ? [] : withoutEchoes(reasons))],
    cautions: point.cautions,
  };
};

/** The ground that steps stand on, before it is known which are open. */
type Base = Pick<Ground, 'job' | 'asOf' | 'diagnosis' | 'model' | 'faults' | 'retests'> & {
  readonly findings: readonly Finding[];
  /** Acts that a danger forbids. */
  readonly forbidden: ReadonlySet<Act>;
};

// Plain loops in functions of their own: this runs once a job, and V8 recompiles one long function of chained calls
// whenever one of its lists is empty for the first time.

const outstandingOf = (all: readonly Standing[]): Step[] => {
  const steps: Step[] = [];
  for (const one of all) if (isOutstanding(one)) steps.push(one.step);
  return steps;
};

const openOf = (steps: readonly Step[], wanted: readonly WorksheetStep[]): Ground['open'] => {
  const open: Ground['open'][number][] = steps.filter(({ recheckDays }) => recheckDays === null);
  for (const { id, base, title, state } of wanted)
    if (state !== 'done') open.push({ id, name: id, base, title });
  return open;
};

const judgeHoldPoints = (
  points: readonly HoldPoint[],
  ground: Ground,
  forbidden: ReadonlySet<Act>,
): WorksheetHoldPoint[] => {
  const withFailed = bringing(ground);
  const judged: WorksheetHoldPoint[] = [];
  for (const point of points) {
    const one = judgeHoldPoint(point, ground, withFailed, forbidden);
    if (one) judged.push(one);
  }
  return judged;
};

/** Hold points that are not clear. */
const closedOf = (points: readonly WorksheetHoldPoint[]): ReadonlySet<string> => {
  const closed = new Set<string>();
  for (const { id, clear } of points) if (!clear) closed.add(id);
  return closed;
};

const isSettled = ({ state }: WorksheetStep): boolean => state === 'done' || state === 'not-needed';

/** The repairs and retests of the job, where a pack has such steps. */
const loopStandings = ({ repair, retest }: PreparedPacks, { faults, retests }: Base): Standing[] =>
  [
    ...(repair ? repairSteps(repair, faults, retests) : []),
    ...(retest ? retestSteps(retest, retests) : []),
  ].map(({ step, done, because }) => ({ step, needed: true, done, because, since: null }));

/** Steps and hold points, and what else is known once they are. */
export interface Outstanding {
  readonly steps: WorksheetStep[];
  readonly holdPoints: WorksheetHoldPoint[];
  /** What facts are asked of. */
  readonly ground: Ground;
  /** The packs' steps that are needed and not done. */
  readonly open: readonly Step[];
}

/**
 * Steps and hold points from the log, the findings and the readings that are missing. Whether a step is done never
 * depends on a hold point; whether it may begin does.
 */
export const outstanding = (prepared: PreparedPacks, base: Base): Outstanding => {
  const { steps, holdPoints: points } = prepared;
  const { job, asOf, diagnosis, model, faults, retests, forbidden } = base;
  const findings = findingsAsked(base.findings);
  const groundOf = (open: Ground['open'], supposed = job): Ground => ({
    job: supposed,
    asOf,
    findings,
    steps,
    open,
    diagnosis,
    model,
    faults,
    retests,
    openIf: (other) => outstandingOf(standings(steps, groundOf([], other))),
    withFailedWork: false,
  });
  const before = groundOf([]);
  const all = [...standings(steps, before), ...loopStandings(prepared, base)];
  const outstandingSteps = outstandingOf(all);
  const wanted = readingSteps(before, outstandingSteps, prepared);
  const ground = groundOf(openOf(outstandingSteps, wanted));
  const holdPoints = judgeHoldPoints(points, ground, forbidden);
  const closed = closedOf(holdPoints);
  const sheets = [...wanted];
  const possible = outstandingSteps.filter(({ acts }) => !acts.some((act) => forbidden.has(act)));
  for (const one of all) sheets.push(toWorksheetStep(one, outstandingSteps, possible, closed, ground));
  return {
    steps: [...inOrder(sheets), ...sheets.filter(isSettled)],
    holdPoints,
    ground,
    open: outstandingSteps,
  };
};
