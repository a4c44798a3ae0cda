import { isJudged, type JudgedRow, type Row } from '../../core/sweep/row.ts';
import { oneLine } from '../clean.ts';
import { displayWidth } from '../columns.ts';
import { counting, findingText, nowText, restText } from '../words/sweep-words.ts';

/** So many rows are looked at before the first is printed, to give each column the width that it needs. */
export const looked = 500;

/** Worst, days and hold points, with their gaps. */
const fixed = 5 + 1 + 4 + 1 + 3 + 1;
/** The finding and what is next cannot be told in less. */
const least = 18 + 1 + 22;

/** Where each column of a line begins and ends, in terminal columns. */
export interface TableLayout {
  readonly vehicle: number;
  /** Null where the files have no column, and each stands below its row. */
  readonly file: number | null;
  readonly finding: number;
  readonly next: number;
  /** The folder that the column of the files leaves out. */
  readonly folder: string;
}

/** The folder that all files have in common, with its last slash. */
const commonFolder = (files: readonly string[]): string => {
  let folder = (files[0] ?? '').replace(/[^/\\]*$/u, '');
  for (const file of files) {
    while (!file.startsWith(folder)) folder = folder.slice(0, -1).replace(/[^/\\]*$/u, '');
  }
  return folder;
};

/** A file as its column names it: without the folder that all have in common, and without `.yaml`. */
export const shortFile = (file: string, folder: string): string => {
  const outside = folder !== '' && !file.startsWith(folder);
  const name =
    outside && !/^([/\\.]|[a-z]:)/iu.test(file) ? `./${file}` : file.slice(outside ? 0 : folder.length);
  return oneLine(name.replace(/\.yaml$/u, ''));
};

/** The widest of at least four in five. */
const mostly = (widths: readonly number[]): number =>
  [...widths].sort((a, b) => a - b)[Math.ceil(widths.length * 0.8) - 1] ?? 0;

const widestOf = (texts: readonly string[]): number => Math.max(0, ...texts.map(displayWidth));

/** What the findings take of the room that they have with the next steps: no more than they need, where both need more. */
const findingWidth = (rows: readonly JudgedRow[], room: number): number => {
  const share = Math.max(18, Math.floor(room * 0.44));
  const needed = widestOf(
    rows.map((row) => {
      const [worst, ...more] = counting(row);
      return worst ? findingText(worst) + (more.length > 0 ? ` +${more.length}` : '') : restText(row);
    }),
  );
  if (needed <= share) return Math.max(13, needed);
  const next = Math.max(22, widestOf(rows.map((row) => nowText(row.now).join(''))));
  return Math.min(needed, Math.max(share, room - next));
};

/** Shares a line's width out among the columns, as the first rows need it. */
export const layoutOf = (rows: readonly Row[], width: number): TableLayout => {
  const judged = rows.filter(isJudged);
  const folder = commonFolder(judged.map(({ file }) => file));
  const widest = Math.max(7, ...judged.map(({ vehicle }) => displayWidth(oneLine(vehicle))));
  const vehicle = Math.min(widest, width >= 110 ? 20 : 14);
  const files = judged.map(({ file }) => displayWidth(shortFile(file, folder)));
  const room = width - fixed - vehicle - 1 - least - 1;
  const fits = files.length > 0 && mostly(files) <= room;
  const file = fits ? Math.min(Math.max(4, ...files), room) : null;
  const rest = width - fixed - vehicle - 1 - (file === null ? 0 : file + 1);
  const finding = findingWidth(judged, rest - 1);
  return { vehicle, file, finding, next: rest - finding - 1, folder };
};
