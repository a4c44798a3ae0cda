import type { Reason, Worksheet, WorksheetStep } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import { reasonText } from '../reasons.ts';
import type { Style } from '../style.ts';
import { wrap } from './grid.ts';

/** Reasons that a reader needs at a glance; the rest wait for `--all`. */
const telling = new Set<Reason['kind']>([
  'undone',
  'failed',
  'readings-missing',
  'readings-stale',
  'conditions-wanted',
  'access-closed',
]);

const isTelling = (reason: Reason): boolean =>
  telling.has(reason.kind) ||
  ((reason.kind === 'not-taken' || reason.kind === 'no-code-list') && reason.tooLate);

const minutesText = (minutes: number): string => (minutes > 0 ? `${Math.round(minutes)} min` : '');

const waitsText = (step: WorksheetStep, titles: ReadonlyMap<string, string>): string | null => {
  if (step.waitsFor.length === 0) return null;
  const names = step.waitsFor.map((id) => {
    const title = titles.get(id);
    if (title !== undefined) return title;
    if (id.startsWith('hold-point/')) return `the hold point "${id.slice('hold-point/'.length)}"`;
    if (id.startsWith('equipment/'))
      return `equipment that can do ${id.slice('equipment/'.length)} (none here can)`;
    return id;
  });
  return `waits for ${names.join('; ')}`;
};

const stepLines = (
  step: WorksheetStep,
  index: number,
  sheet: Worksheet,
  titles: ReadonlyMap<string, string>,
  style: Style,
): string[] => {
  const { chalk, options } = style;
  const indent = 12;
  const minutes = minutesText(step.minutes);
  const number = String(index + 1).padStart(3);
  const state = step.state.padEnd(7);
  const room = options.width - indent - minutes.length - 2;
  const [first = '', ...more] = wrap(oneLine(step.title), room);
  const head = `${number} ${step.state === 'ready' ? chalk.bold(state) : chalk.dim(state)} ${first.padEnd(room)}  ${minutes}`;
  const below = [
    waitsText(step, titles),
    ...step.because
      .filter((reason) => options.all || isTelling(reason))
      .map((reason) => reasonText(reason, sheet.job.zone)),
    options.all && step.needs !== null ? `needs ${step.needs}` : null,
    ...(options.all ? step.points : []),
  ].filter((line) => line !== null);
  const detail = below.flatMap((line) => wrap(oneLine(line), options.width - indent, 2));
  return [head.trimEnd(), ...[...more, ...detail].map((line) => `${' '.repeat(indent)}${line}`)];
};

/** Steps still outstanding, in order, each with what it waits for. */
export const stepsList = (sheet: Worksheet, style: Style): string => {
  const { chalk, text, options } = style;
  const open = sheet.steps.filter(({ state }) => state === 'ready' || state === 'waiting');
  const titles = new Map(sheet.steps.map(({ id, title }) => [id, title]));
  const minutes = open.reduce((sum, step) => sum + step.minutes, 0);
  const total =
    minutes >= 60
      ? `${Math.floor(minutes / 60)} h ${Math.round(minutes % 60)} min`
      : `${Math.round(minutes)} min`;
  if (open.length === 0) return `${chalk.bold('Steps outstanding')}\n  none`;
  const head = chalk.bold(`Steps outstanding, in order (${open.length}, about ${total})`);
  const lines = open.flatMap((step, index) => stepLines(step, index, sheet, titles, style));
  const settled = sheet.steps.filter(
    ({ state }) => state === 'done' || (options.all && state === 'not-needed'),
  );
  const rest = options.all
    ? settled.flatMap((step) =>
        wrap(
          `    ${step.state === 'done' ? 'done' : 'n/a '}    ${oneLine(step.title)} (${step.because.map((reason) => reasonText(reason, sheet.job.zone)).join('; ')})`,
          options.width,
          12,
        ),
      )
    : [];
  return `${head}\n${text([...lines, ...rest].join('\n'))}`;
};

/** Each caution once, with the steps and hold points that it belongs to. */
export const cautionsList = (sheet: Worksheet, style: Style): string | null => {
  const { chalk, text, options } = style;
  const byText = new Map<string, number[]>();
  const open = sheet.steps.filter(({ state }) => state === 'ready' || state === 'waiting');
  for (const [index, step] of open.entries()) {
    for (const caution of step.cautions) byText.set(caution, [...(byText.get(caution) ?? []), index + 1]);
  }
  if (byText.size === 0) return null;
  const lines = [...byText].flatMap(([caution, numbers]) =>
    wrap(
      `  ${oneLine(caution)} (${numbers.length > 1 ? 'steps' : 'step'} ${numbers.join(', ')})`,
      options.width,
      4,
    ),
  );
  return `${chalk.bold('Cautions')}\n${text(lines.join('\n'))}`;
};
