import type { Finding } from '../finding.ts';
import type { Channel, HoldPoint, Pack, Step } from '../pack.ts';
import { perPacks } from '../per-packs.ts';
import type { Reason, WorksheetHoldPoint, WorksheetStep } from '../worksheet.ts';
import { answer } from './answer.ts';
import { findingsAsked } from './findings-asked.ts';
import { bringing, type Ground } from './ground.ts';
import { inOrder } from './order.ts';
import { readingSteps } from './readings-wanted.ts';
import { type Standing, standings } from './step-state.ts';
import { waitsForSomebody } from './waiting.ts';

/** What packs ask for, with the texts of their cautions. */
const asked = perPacks((packs) => {
  const byPack = new Map(packs.map((pack) => [pack.id, pack.cautions]));
  // Two packs may each have a caution of one name.
  const texts = (pack: string, ids: readonly string[]): string[] =>
    ids.map((id) => byPack.get(pack)?.get(id) ?? id);
  const steps = packs.flatMap((pack) => pack.steps);
  const holdPoints = packs.flatMap((pack) => pack.holdPoints);
  const cautions = new Map<Step | HoldPoint, readonly string[]>([
    ...steps.map((step) => [step, texts(step.id.split('/')[0] ?? '', step.cautions)] as const),
    ...holdPoints.map((point) => [point, texts(point.pack, point.cautions)] as const),
  ]);
  return { steps, holdPoints, cautionsOf: (of: Step | HoldPoint) => cautions.get(of) ?? [] };
});

const isOutstanding = ({ needed, done }: Standing): boolean => needed && !done;

/** What an outstanding step waits for. */
const waitsOf = (
  { step }: Standing,
  outstandingSteps: readonly Step[],
  closed: ReadonlySet<string>,
  unequipped: boolean,
  ground: Ground,
): string[] => [
  ...outstandingSteps.filter(({ name }) => step.after.includes(name)).map(({ id }) => id),
  ...(step.behind !== null && closed.has(step.behind) ? [`hold-point/${step.behind}`] : []),
  ...(unequipped ? [`equipment/${step.needs}`] : []),
  ...waitsForSomebody(step, ground),
];

const toWorksheetStep = (
  standing: Standing,
  outstandingSteps: readonly Step[],
  closed: ReadonlySet<string>,
  ground: Ground,
  cautions: readonly string[],
): WorksheetStep => {
  const { step, needed, done, because } = standing;
  const { equipment } = ground.job;
  const open = isOutstanding(standing);
  const unequipped =
    open &&
    step.needs !== null &&
    equipment !== null &&
    !equipment.some(({ does }) => does.includes(step.needs ?? ''));
  const waitsFor = open ? waitsOf(standing, outstandingSteps, closed, unequipped, ground) : [];
  return {
    id: step.id,
    title: step.title,
    state: done ? 'done' : !needed ? 'not-needed' : waitsFor.length > 0 ? 'waiting' : 'ready',
    waitsFor,
    because,
    minutes: step.minutes,
    needs: step.needs,
    unequipped,
    points: step.points,
    cautions,
  };
};

/** That a check is not shown to be good is no news beside its finding that is out. */
const withoutEchoes = (reasons: readonly Reason[]): readonly Reason[] => {
  const out = reasons.flatMap((reason) => (reason.kind === 'finding' ? [reason.finding.split(':')[0]] : []));
  return reasons.filter((reason) => reason.kind !== 'finding-wanted' || !out.includes(reason.check));
};

const judgeHoldPoint = (
  point: HoldPoint,
  ground: Ground,
  withFailed: Ground,
  cautions: readonly string[],
): WorksheetHoldPoint | null => {
  if (point.when !== null && !answer(point.when, withFailed).holds) return null;
  const { holds, reasons } = answer(point.clearWhen, ground);
  return {
    id: point.id,
    title: point.title,
    clear: holds,
    reasons: holds ? [] : withoutEchoes(reasons),
    cautions,
  };
};

/** The ground that steps stand on, before it is known which are open. */
type Base = Pick<Ground, 'job' | 'asOf' | 'ranking'> & { readonly findings: readonly Finding[] };

/**
 * Steps and hold points from the log, the findings and the readings that are missing. Whether a step is done never
 * depends on a hold point; whether it may begin does.
 */
export const outstanding = (
  packs: readonly Pack[],
  base: Base,
  channels: ReadonlyMap<string, Channel>,
): { readonly steps: WorksheetStep[]; readonly holdPoints: WorksheetHoldPoint[] } => {
  const { steps, holdPoints: points, cautionsOf } = asked(packs);
  const { job, asOf, ranking } = base;
  const findings = findingsAsked(base.findings);
  const groundOf = (open: Ground['open'], supposed = job): Ground => ({
    job: supposed,
    asOf,
    findings,
    steps,
    open,
    ranking,
    openIf: (other) =>
      standings(steps, groundOf([], other))
        .filter(isOutstanding)
        .map(({ step }) => step),
    withFailedWork: false,
  });
  const before = groundOf([]);
  const all = standings(steps, before);
  const outstandingSteps = all.filter(isOutstanding).map(({ step }) => step);
  const wanted = readingSteps(before, outstandingSteps, channels);
  const open = [
    ...outstandingSteps,
    ...wanted.filter(({ state }) => state !== 'done').map(({ id, title }) => ({ id, name: id, title })),
  ];
  const ground = groundOf(open);
  const withFailed = bringing(ground);
  const holdPoints = points.flatMap(
    (point) => judgeHoldPoint(point, ground, withFailed, cautionsOf(point)) ?? [],
  );
  const closed = new Set(holdPoints.filter(({ clear }) => !clear).map(({ id }) => id));
  const sheets = [
    ...wanted,
    ...all.map((one) => toWorksheetStep(one, outstandingSteps, closed, ground, cautionsOf(one.step))),
  ];
  const settled = sheets.filter(({ state }) => state === 'done' || state === 'not-needed');
  return { steps: [...inOrder(sheets), ...settled], holdPoints };
};
