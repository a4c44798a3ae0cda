import { counts } from '../../core/finding.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import type { Reason, WorksheetStep } from '../../core/worksheet-parts.ts';
import { oneLine } from '../clean.ts';
import type { Style } from '../style.ts';
import { missingText, ownUnits } from '../words/finding-words.ts';
import { reasonText } from '../words/reason-words.ts';
import { wrap } from './grid.ts';
import { workText } from './work-text.ts';

/** Reasons that a reader needs at a glance; the rest wait for `--all`. */
const telling: ReadonlySet<Reason['kind']> = new Set([
  'undone',
  'failed',
  'readings-missing',
  'reading-open',
  'not-taken',
  'no-code-list',
  'readings-stale',
  'conditions-wanted',
  'access-closed',
]);

/** Reasons as lines; checks that lack the same thing share one. */
const reasonLines = (reasons: readonly Reason[], zone: string): string[] => {
  const lines: string[] = [];
  const open = new Map<string, string[]>();
  for (const reason of reasons) {
    if (reason.kind !== 'reading-open') {
      lines.push(reasonText(reason, zone));
      continue;
    }
    const { title, subject, missing } = reason;
    const key = `${title}|${missingText(missing, ownUnits)}`;
    open.set(key, [...(open.get(key) ?? []), subject]);
  }
  const shared = [...open].map(([key, subjects]) => {
    const [title, why] = key.split('|');
    return `${title} (${subjects.join(' ')}): ${why}`;
  });
  return [...lines, ...shared];
};

const isTelling = (reason: Reason): boolean => telling.has(reason.kind);

/** Why a step is outstanding, as far as a reader needs it at a glance. */
export const tellingLines = ({ because }: WorksheetStep, zone: string, all: boolean): string[] =>
  reasonLines(
    because.filter((reason) => all || isTelling(reason)),
    zone,
  );

/** A step with the name that it is typed by: `Ride-height learn (height-learn)`. */
export const namedStep = ({ id, title }: Pick<WorksheetStep, 'id' | 'title'>): string =>
  `${title} (${id.startsWith('readings/') ? id : (id.split('/').at(-1) ?? id)})`;

const minutesText = (minutes: number): string => (minutes > 0 ? `${Math.round(minutes)} min` : '');

/** What a step waits for directly: what one of these waits for in turn needs no saying. */
const direct = (step: WorksheetStep, byId: ReadonlyMap<string, WorksheetStep>): string[] => {
  const behind = new Set<string>();
  const follow = (id: string): void => {
    for (const next of byId.get(id)?.waitsFor ?? []) {
      if (behind.has(next)) continue;
      behind.add(next);
      follow(next);
    }
  };
  for (const id of step.waitsFor) follow(id);
  return step.waitsFor.filter((id) => !behind.has(id));
};

const nameOf = (id: string, sheet: BriefWorksheet): string => {
  const title = sheet.steps.find((step) => step.id === id)?.title;
  if (title !== undefined) return title;
  const [kind, ...rest] = id.split('/');
  const name = rest.join('/');
  const point = sheet.holdPoints.find((one) => one.id === name);
  if (kind === 'hold-point' && point) return `the hold point "${point.title}"`;
  return kind === 'equipment' ? `equipment that can do ${name} (none here can)` : id;
};

/** What a step waits for directly, each in words. */
export const waitedFor = (step: WorksheetStep, sheet: BriefWorksheet): string[] =>
  direct(step, new Map(sheet.steps.map((one) => [one.id, one]))).map((id) => nameOf(id, sheet));

/** The same in one line; null where it waits for nothing. */
export const waitsText = (step: WorksheetStep, sheet: BriefWorksheet): string | null =>
  step.waitsFor.length === 0 ? null : `waits for ${waitedFor(step, sheet).join('; ')}`;

const stepLines = (step: WorksheetStep, index: number, sheet: BriefWorksheet, style: Style): string[] => {
  const { chalk, options } = style;
  const indent = 12;
  const minutes = minutesText(step.minutes);
  const number = String(index + 1).padStart(3);
  const state = step.state.padEnd(7);
  const room = options.width - indent - minutes.length - 2;
  const [first = '', ...more] = wrap(oneLine(step.title), room);
  const head = `${number} ${step.state === 'ready' ? chalk.bold(state) : chalk.dim(state)} ${first.padEnd(room)}  ${minutes}`;
  const below = [
    waitsText(step, sheet),
    ...tellingLines(step, sheet.job.zone, options.all),
    options.all && step.needs !== null ? `needs ${step.needs}` : null,
    ...(options.all ? step.points : []),
  ].filter((line) => line !== null);
  const detail = below.flatMap((line) => wrap(oneLine(line), options.width - indent, 0, 2));
  return [head.trimEnd(), ...[...more, ...detail].map((line) => `${' '.repeat(indent)}${line}`)];
};

/** Steps still outstanding, in order, each with what it waits for. */
export const stepsList = (sheet: BriefWorksheet, style: Style): string => {
  const { chalk, text, options } = style;
  const open = sheet.steps.filter(({ state }) => state === 'ready' || state === 'waiting');
  if (open.length === 0) return `${chalk.bold('Steps outstanding')}\n  none`;
  const repair = sheet.findings.some(counts) ? ', without the repair itself' : '';
  const title = `Steps outstanding, in order (${open.length}, ${workText(open)}${repair})`;
  const head = wrap(title, options.width, 0, 2)
    .map((line) => chalk.bold(line))
    .join('\n');
  const lines = open.flatMap((step, index) => stepLines(step, index, sheet, style));
  const settled = sheet.steps.filter(
    ({ state }) => state === 'done' || (options.all && state === 'not-needed'),
  );
  const rest = options.all
    ? settled.flatMap((step) =>
        wrap(
          `${step.state === 'done' ? 'done' : 'n/a '}    ${oneLine(step.title)} (${step.because.map((reason) => reasonText(reason, sheet.job.zone)).join('; ')})`,
          options.width,
          4,
          12,
        ),
      )
    : [];
  return `${head}\n${text([...lines, ...rest].join('\n'))}`;
};

/** What to heed in the outstanding steps, each once, with the places of the steps in their list. */
export const cautionTexts = (sheet: BriefWorksheet): string[] => {
  const byText = new Map<string, number[]>();
  const open = sheet.steps.filter(({ state }) => state === 'ready' || state === 'waiting');
  for (const [index, step] of open.entries()) {
    for (const caution of step.cautions) byText.set(caution, [...(byText.get(caution) ?? []), index + 1]);
  }
  return [...byText].map(
    ([caution, numbers]) =>
      `${oneLine(caution)} (${numbers.length > 1 ? 'steps' : 'step'} ${numbers.join(', ')})`,
  );
};

/** Each caution once, with the steps and hold points that it belongs to. */
export const cautionsList = (sheet: BriefWorksheet, style: Style): string | null => {
  const { chalk, text, options } = style;
  const lines = cautionTexts(sheet).flatMap((caution) => wrap(caution, options.width, 2, 4));
  return lines.length === 0 ? null : `${chalk.bold('Cautions')}\n${text(lines.join('\n'))}`;
};
