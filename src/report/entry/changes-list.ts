import { type Changes, compareSheets, type StepChange } from '../../core/changes.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import { wrap } from '../sheet/grid.ts';
import { namedStep, tellingLines, waitsText } from '../sheet/steps.ts';
import type { Style } from '../style.ts';
import { warningText } from '../words/reason-words.ts';

/** The word before a step's title: what has become of it. */
const wordFor = ({ was, now }: StepChange): string => {
  if (now === null || now === 'done') return 'done';
  if (now === 'not-needed') return 'not needed';
  if (was === 'done') return 'again';
  return now === 'ready' ? 'ready' : 'waiting';
};

const indent = 13;

const entry = (word: string, title: string, below: readonly string[], width: number): string[] => [
  ...wrap(`${word.padEnd(indent - 3)} ${oneLine(title)}`, width, 2, indent),
  ...below.flatMap((line) => wrap(oneLine(line), width, indent, indent + 2)),
];

const stepLines = (change: StepChange, sheet: BriefWorksheet, style: Style): string[] => {
  const { step, now } = change;
  const isOpen = now === 'ready' || now === 'waiting';
  const waits = isOpen ? waitsText(step, sheet) : null;
  const below = isOpen
    ? [...(waits === null ? [] : [waits]), ...tellingLines(step, sheet.job.zone, style.options.all)]
    : [];
  return entry(wordFor(change), namedStep(step), below, style.options.width);
};

const order: readonly string[] = ['done', 'not needed', 'again', 'ready', 'waiting'];

const byWord = (a: StepChange, b: StepChange): number =>
  order.indexOf(wordFor(a)) - order.indexOf(wordFor(b));

const stillOpen = ({ holdPoints }: BriefWorksheet): string | null => {
  const shut = holdPoints.filter(({ clear }) => !clear).map(({ title }) => `"${title}"`);
  return shut.length === 0
    ? null
    : `Not clear: the hold point${shut.length > 1 ? 's' : ''} ${shut.join(', ')}.`;
};

/** What to heed in the steps that can now be done, each caution once. */
const cautions = ({ steps }: Changes, style: Style): string[] => {
  const ready = steps.filter(({ now }) => now === 'ready').flatMap(({ step }) => [...step.cautions]);
  return [...new Set(ready)].flatMap((caution) =>
    wrap(oneLine(`CAUTION: ${caution}`), style.options.width, 2, 4),
  );
};

const changedLines = (changes: Changes, after: BriefWorksheet, style: Style): string[] => {
  const { width, all } = style.options;
  return [
    ...changes.stale.flatMap(({ state, channels }) =>
      entry('stale', `${channels.join(', ')} (${state}): read before this work`, [], width),
    ),
    ...[...changes.steps].sort(byWord).flatMap((change) => stepLines(change, after, style)),
    ...changes.shrunk.flatMap((step) =>
      entry('still', namedStep(step), tellingLines(step, after.job.zone, all), width),
    ),
    ...changes.holdPoints.flatMap(({ point, clear }) =>
      entry(clear ? 'clear' : 'NOT CLEAR', `hold point "${point.title}"`, [], width),
    ),
  ];
};

/** What the sheet warns of now and did not before. */
const newWarnings = (before: BriefWorksheet, after: BriefWorksheet, style: Style): string[] => {
  const told = (sheet: BriefWorksheet): string[] =>
    sheet.warnings.filter(({ kind }) => kind !== 'assumed').map((one) => warningText(one, sheet.job.zone));
  const old = told(before);
  return told(after)
    .filter((warning) => !old.includes(warning))
    .flatMap((warning) => wrap(oneLine(`warning: ${warning}`), style.options.width, 0, 2));
};

/** What an entry changed in steps and hold points, and which hold points are still not clear. */
export const changesList = (before: BriefWorksheet, after: BriefWorksheet, style: Style): string => {
  const { chalk, text, options } = style;
  const changes = compareSheets(before, after);
  const lines = [...changedLines(changes, after, style), ...cautions(changes, style)];
  const open = stillOpen(after);
  return [
    ...newWarnings(before, after, style).map((line) => text(line)),
    chalk.bold(lines.length > 0 ? 'What this changed' : 'Steps and hold points stand as they did.'),
    ...lines.map((line) => text(line)),
    ...(open === null ? [] : wrap(text(open), options.width)),
  ].join('\n');
};
