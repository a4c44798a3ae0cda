import { parseKey } from '../../core/key.ts';
import type { Reason, WorksheetStep } from '../../core/worksheet-parts.ts';
import { oneLine } from '../clean.ts';
import { displayWidth } from '../columns.ts';
import type { Style } from '../style.ts';
import { keysText } from '../words/key-words.ts';
import { reasonText } from '../words/reason-words.ts';
import { fitting } from './fitting.ts';
import { wrap } from './grid.ts';
import { namedStep } from './steps.ts';

/** Reasons that change what somebody does about a step. */
const telling: ReadonlySet<Reason['kind']> = new Set(['access-closed', 'failed', 'undone', 'reading-open']);

/** Channels that a step asks for, those of one name together. */
const channelsOf = ({ because }: WorksheetStep): string[] => {
  const keys = because.flatMap((reason) =>
    reason.kind === 'readings-missing' || reason.kind === 'readings-stale' ? [...reason.channels] : [],
  );
  const bases = [...new Set(keys.map((key) => parseKey(key).base))];
  return bases.map((base) => keysText([...new Set(keys.filter((key) => parseKey(key).base === base))]));
};

const noteOf = ({ because, unequipped, needs }: WorksheetStep, zone: string): string[] => [
  ...(unequipped ? [`no equipment here can do it${needs === null ? '' : ` (${needs})`}`] : []),
  ...because.filter(({ kind }) => telling.has(kind)).map((reason) => oneLine(reasonText(reason, zone))),
];

/** The step's own words with as much behind them as the line has room for. */
const wordsOf = (step: WorksheetStep, zone: string, room: number, text: Style['text']): string => {
  const channels = channelsOf(step).map(text);
  const title = text(oneLine(step.title));
  if (channels.length > 0) return `${title}: ${fitting(channels, room - displayWidth(title) - 2, ', ')}`;
  const named = text(oneLine(namedStep(step)));
  const start = displayWidth(named) <= room ? named : title;
  const [note] = noteOf(step, zone).map(text);
  const whole = note === undefined ? start : `${start}: ${note}`;
  if (displayWidth(whole) <= room) return whole;
  const short = note === undefined ? start : `${title}: ${note}`;
  // What nobody here can do is said at any length.
  return displayWidth(short) <= room || step.unequipped ? short : start;
};

/** One outstanding step: its place in the order of doing, its title, its minutes; a waiting one is indented. */
export const stepLine = (step: WorksheetStep, place: number, zone: string, style: Style): string[] => {
  const { chalk, options, text } = style;
  const minutes = step.minutes > 0 ? `${Math.round(step.minutes)} min` : '';
  const isReady = step.state === 'ready';
  const number = `${isReady ? '' : '  '}${String(place).padStart(2)}. `;
  const first = 2 + number.length;
  const room = options.width - first - minutes.length - 2;
  const [line = '', ...more] = wrap(wordsOf(step, zone, room, text), room);
  const filled = minutes === '' ? line : line + ' '.repeat(Math.max(0, room - displayWidth(line)));
  const shown = isReady ? chalk.bold(filled) : filled;
  return [
    `  ${number}${shown}${minutes === '' ? '' : `  ${minutes}`}`,
    ...more.map((part) => ' '.repeat(first) + part),
  ];
};
