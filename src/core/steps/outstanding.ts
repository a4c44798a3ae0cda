import type { Channel, HoldPoint, Pack } from '../pack.ts';
import type { Reason, WorksheetHoldPoint, WorksheetStep } from '../worksheet.ts';
import { answer } from './answer.ts';
import type { Ground } from './ground.ts';
import { inOrder } from './order.ts';
import { readingSteps } from './readings-wanted.ts';
import { type Standing, standing } from './step-state.ts';
import { waitsForSomebody } from './waiting.ts';

/** The text of a pack's caution; two packs may each have one of a name. */
type CautionTexts = (pack: string, id: string) => string;

const toWorksheetStep = (
  { step, needed, done, because }: Standing,
  standings: readonly Standing[],
  closed: ReadonlySet<string>,
  ground: Ground,
  texts: CautionTexts,
): WorksheetStep => {
  const { equipment } = ground.job;
  const outstanding = needed && !done;
  const unequipped =
    outstanding &&
    step.needs !== null &&
    equipment !== null &&
    !equipment.some(({ does }) => does.includes(step.needs ?? ''));
  const before = standings
    .filter((other) => step.after.includes(other.step.name) && other.needed && !other.done)
    .map((other) => other.step.id);
  const waitsFor = outstanding
    ? [
        ...before,
        ...(step.behind !== null && closed.has(step.behind) ? [`hold-point/${step.behind}`] : []),
        ...(unequipped ? [`equipment/${step.needs}`] : []),
        ...waitsForSomebody(step, ground),
      ]
    : [];
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
    cautions: step.cautions.map((id) => texts(step.id.split('/')[0] ?? '', id)),
  };
};

/** That a check is not shown to be good is no news beside its finding that is out. */
const withoutEchoes = (reasons: readonly Reason[]): readonly Reason[] => {
  const out = reasons.flatMap((reason) => (reason.kind === 'finding' ? [reason.finding.split(':')[0]] : []));
  return reasons.filter((reason) => reason.kind !== 'finding-wanted' || !out.includes(reason.check));
};

const judgeHoldPoint = (point: HoldPoint, ground: Ground, texts: CautionTexts): WorksheetHoldPoint | null => {
  if (point.when !== null && !answer(point.when, { ...ground, withFailedWork: true }).holds) return null;
  const { holds, reasons } = answer(point.clearWhen, ground);
  return {
    id: point.id,
    title: point.title,
    clear: holds,
    reasons: holds ? [] : withoutEchoes(reasons),
    cautions: point.cautions.map((id) => texts(point.pack, id)),
  };
};

/**
 * Steps and hold points from the log, the findings and the readings that are missing. Whether a step is done never
 * depends on a hold point; whether it may begin does.
 */
export const outstanding = (
  packs: readonly Pack[],
  base: Omit<Ground, 'open' | 'openIf' | 'steps'>,
  channels: ReadonlyMap<string, Channel>,
): { readonly steps: WorksheetStep[]; readonly holdPoints: WorksheetHoldPoint[] } => {
  const byPack = new Map(packs.map((pack) => [pack.id, pack.cautions]));
  const texts: CautionTexts = (pack, id) => byPack.get(pack)?.get(id) ?? id;
  const steps = packs.flatMap((pack) => pack.steps);
  const before: Ground = {
    ...base,
    steps,
    open: [],
    openIf: (job) =>
      steps.filter((step) => {
        const { needed, done } = standing(step, { ...before, job });
        return needed && !done;
      }),
  };
  const standings = steps.map((step) => standing(step, before));
  const wanted = readingSteps(before, standings, channels);
  const open = [
    ...standings
      .filter(({ needed, done }) => needed && !done)
      .map(({ step: { id, name, title } }) => ({ id, name, title })),
    ...wanted.filter(({ state }) => state !== 'done').map(({ id, title }) => ({ id, name: id, title })),
  ];
  const ground: Ground = { ...before, open };
  const holdPoints = packs
    .flatMap((pack) => pack.holdPoints)
    .map((point) => judgeHoldPoint(point, ground, texts))
    .filter((point) => point !== null);
  const closed = new Set(holdPoints.filter(({ clear }) => !clear).map(({ id }) => id));
  const all = [...wanted, ...standings.map((one) => toWorksheetStep(one, standings, closed, ground, texts))];
  const settled = all.filter(({ state }) => state === 'done' || state === 'not-needed');
  return { steps: [...inOrder(all), ...settled], holdPoints };
};
