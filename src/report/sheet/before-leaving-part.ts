import { counts } from '../../core/finding.ts';
import type { Instant } from '../../core/job.ts';
import { type Held, heldBy } from '../../core/outlook/held.ts';
import { mayLeave } from '../../core/outlook/may-leave.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import type { WorksheetHoldPoint, WorksheetStep } from '../../core/worksheet-parts.ts';
import { oneLine } from '../clean.ts';
import type { Style } from '../style.ts';
import { timeText } from '../times.ts';
import { heldText } from '../words/leave-words.ts';
import { wrap } from './grid.ts';
import { stepLine } from './step-line.ts';
import { workText } from './work-text.ts';

/** What holds the release stands at the top and in the list, so that here a word is enough. */
const releaseWords: Readonly<Record<Exclude<Held['of'], 'reason'>, string>> = {
  findings: 'what is out at hold',
  faults: 'what is at fault',
  'old-findings': 'what was out before the work and was not read again',
  steps: 'the steps above',
};

const markText = (
  { id, title, reasons }: WorksheetHoldPoint,
  { faults, job }: BriefWorksheet,
  width: number,
): string => {
  const held = heldBy(reasons, id === 'release' ? faults : []);
  const head = `HOLD ${title}: `;
  const why =
    held.of === 'steps' || (id === 'release' && held.of !== 'reason')
      ? releaseWords[held.of]
      : heldText(held, job.zone, width - head.length);
  return head + why;
};

const markLines = (
  point: WorksheetHoldPoint,
  sheet: BriefWorksheet,
  { chalk, text, options }: Style,
): string[] =>
  wrap(text(oneLine(markText(point, sheet, options.width - 2))), options.width, 2, 7).map((line) =>
    chalk.bold(line),
  );

const isOpen = ({ state }: WorksheetStep): boolean => state === 'ready' || state === 'waiting';

/** Hold points that are not clear and hold something up, by the first outstanding step that waits for each; the others under null. */
const placed = (
  steps: readonly WorksheetStep[],
  holdPoints: readonly WorksheetHoldPoint[],
): ReadonlyMap<string | null, readonly WorksheetHoldPoint[]> => {
  const found = new Map<string | null, WorksheetHoldPoint[]>();
  for (const point of holdPoints.filter(({ clear, holds }) => !clear && holds)) {
    const waiting = steps.find(({ waitsFor }) => waitsFor.includes(`hold-point/${point.id}`));
    const at = waiting?.id ?? null;
    found.set(at, [...(found.get(at) ?? []), point]);
  }
  return found;
};

const laterText = (title: string, due: Instant, zone: string): string =>
  `Later, and holds nothing: ${title}, due ${timeText(due, zone)}`;

/** What is still to be done, of a vehicle that is held before it may leave: in the order of doing, with the hold points where they hold. */
export const beforeLeavingPart = (sheet: BriefWorksheet, style: Style): string => {
  const { chalk, text, options } = style;
  const open = sheet.steps.filter(isOpen);
  const steps = open.filter(({ due }) => due === null);
  const later = open.flatMap(({ title, due }) =>
    due === null ? [] : [laterText(title, due, sheet.job.zone)],
  );
  const points = placed(steps, sheet.holdPoints);
  const marks = (at: string | null): string[] =>
    (points.get(at) ?? []).flatMap((point) => markLines(point, sheet, style));
  const lines = [
    ...marks(null),
    ...steps.flatMap((step, at) => [...marks(step.id), ...stepLine(step, at + 1, sheet.job.zone, style)]),
  ];
  const repair = sheet.findings.some(counts) ? ', without the repair itself' : '';
  const count = steps.length === 1 ? '1 step' : `${steps.length} steps`;
  const isHeld = mayLeave(sheet).verdict.startsWith('do-not');
  const what = steps.length === 0 ? 'no step is outstanding' : `${count}, ${workText(steps)}${repair}`;
  const head = `${isHeld ? 'Before it may leave' : 'Still to do'}: ${what}`;
  return [
    ...wrap(text(head), options.width, 0, 2).map((line) => chalk.bold(line)),
    ...lines,
    ...later.flatMap((line) => wrap(text(oneLine(line)), options.width, 0, 2)),
  ].join('\n');
};
