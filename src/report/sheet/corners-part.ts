import { axles, type Corner } from '../../core/corner.ts';
import type { Snapshot } from '../../core/job.ts';
import {
  type CornerReading,
  type CornerStandings,
  cornerStandings,
} from '../../core/outlook/corner-standing.ts';
import { together } from '../../core/outlook/together.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import type { Style } from '../style.ts';
import { timeText } from '../times.ts';
import { cornerWords, togetherText } from '../words/corner-words.ts';
import { besideCorners } from './beside-corners.ts';
import { kept, released, wrap } from './grid.ts';
import { inColumns, type ShownCell } from './in-columns.ts';
import { readingText } from './reading-text.ts';

const fine: ReadonlySet<string> = new Set(['ok', 'old', 'not-judged', 'not-read']);

interface Cell {
  readonly text: string;
  readonly isOff: boolean;
}

const valueAndWord = ({ reading, judged, word }: CornerReading, style: Style): string => {
  const value = readingText(reading, judged[0], style);
  return reading.kind === 'untaken' ? cornerWords[word] : `${value} ${cornerWords[word]}`;
};

const cellOf = (corner: Corner, { corners }: CornerStandings, style: Style): Cell => {
  const standing = corners.find((one) => one.corner === corner);
  if (!standing?.isFitted) return { text: `${corner}  not fitted`, isOff: false };
  const { signal, tape } = standing;
  const parts = [
    signal === null ? 'not read' : valueAndWord(signal, style),
    ...(tape === null ? [] : [`tape ${valueAndWord(tape, style)}`]),
  ];
  const isOff = [signal, tape].some((one) => one !== null && !fine.has(one.word));
  return { text: `${corner}  ${oneLine(parts.join(', '))}`, isOff };
};

/** `as-found, key-on, 2026-03-02 08:40`. */
const takenText = ({ id, state }: Snapshot, time: string): string => {
  const name = oneLine(id);
  return [...(name === state ? [] : [name]), state, time].join(', ');
};

const headOf = ({ signalsOf, tapesOf }: CornerStandings, zone: string): string => {
  const [signals, tapes] = [signalsOf, tapesOf].map((one) => (one ? timeText(one.stamp.at, zone) : ''));
  const day = 'yyyy-mm-dd '.length;
  // Of two times on one day the second needs no date.
  const time = signals?.slice(0, day) === tapes?.slice(0, day) ? tapes?.slice(day) : tapes;
  const tape = tapesOf === null || tapesOf === signalsOf ? '' : `; tape ${takenText(tapesOf, time ?? '')}`;
  return signalsOf === null ? `Corners${tape}` : `Corners: ${takenText(signalsOf, signals ?? '')}${tape}`;
};

const halves = (parts: readonly string[]): readonly [string, string] => {
  const half = Math.ceil(parts.length / 2);
  return [parts.slice(0, half).join(' · '), parts.slice(half).join(' · ')];
};

/** Parts in a row; one that does not fit begins the next line whole. */
const besideBelow = (beside: readonly string[], { text, options }: Style): string[] => {
  const last = beside.length - 1;
  const parts = beside.map((part, at) => kept(text(at < last ? `${part} ·` : part)));
  return wrap(parts.join(' '), options.width, 2).map(released);
};

const shownCell = ({ text: words, isOff }: Cell, { chalk, text }: Style): ShownCell => {
  const plain = text(words);
  return { plain, shown: isOff ? chalk.bold(plain) : plain };
};

/** Rows with what stands beside the corners; below them, and each corner on its own line, where there is no room. */
const rowsOf = (
  front: readonly Cell[],
  rear: readonly Cell[],
  beside: readonly string[],
  style: Style,
): string[] => {
  const { text, options } = style;
  const room = options.width - 2;
  const pairs = [front, rear].map((cells) => cells.map((cell) => shownCell(cell, style)));
  const halved = halves(beside).map((part) => ({ plain: text(part), shown: text(part) }));
  const withBeside = pairs.map((row, at) => [...row, ...halved.slice(at, at + 1)]);
  const besides = inColumns(withBeside);
  if (besides.width <= room) return besides.lines.map((line) => `  ${line}`);
  const alone = inColumns(pairs);
  const lines = alone.width <= room ? alone.lines : pairs.flat().map(({ shown }) => shown);
  return [...lines.map((line) => `  ${line}`), ...besideBelow(beside, style)];
};

/** The corners two by two, each with its word, and what they say together; supply, tank, lamp and codes beside them. */
export const cornersPart = (sheet: BriefWorksheet, style: Style): string | null => {
  const { chalk, text, options } = style;
  if (sheet.job.snapshots.length === 0) return null;
  const standings = cornerStandings(sheet);
  const beside = besideCorners(sheet, style);
  const said = togetherText(together(sheet, standings));
  const head = wrap(text(headOf(standings, sheet.job.zone)), options.width, 0, 2);
  const cells = (some: readonly Corner[]): Cell[] => some.map((corner) => cellOf(corner, standings, style));
  const isAnyRead = standings.corners.some(({ signal, tape }) => signal !== null || tape !== null);
  const rows = isAnyRead
    ? rowsOf(cells(axles.front), cells(axles.rear), beside, style)
    : besideBelow(['corners not read', ...beside], style);
  return [
    ...(isAnyRead ? head.map((line) => chalk.bold(line)) : [chalk.bold('Readings')]),
    ...rows.map((row) => row.trimEnd()),
    ...(said === null ? [] : wrap(text(oneLine(said)), options.width, 2)),
  ].join('\n');
};
