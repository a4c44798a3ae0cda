import { oneLine } from '../clean.ts';
import { cell, displayWidth } from '../columns.ts';
import type { Style } from '../style.ts';
import { timeText } from '../times.ts';

/** A kept version of a file, as it is told. */
export interface ToldVersion {
  readonly number: number;
  readonly at: string;
  readonly by: string | null;
  readonly what: string;
  /** Null for the oldest. */
  readonly lines: readonly [added: number, removed: number] | null;
}

const sizeText = (lines: ToldVersion['lines']): string => {
  if (lines === null) return '';
  const [added, removed] = lines;
  const parts = [...(added > 0 ? [`+${added}`] : []), ...(removed > 0 ? [`-${removed}`] : [])];
  if (parts.length === 0) return 'no line';
  return `${parts.join(' ')} ${added + removed === 1 ? 'line' : 'lines'}`;
};

/**
 * The kept versions of a file, one line each, the newest first.
 *
 * @param isGone whether the file is not there any more
 */
export const versionsText = (
  file: string,
  versions: readonly ToldVersion[],
  isGone: boolean,
  zone: string,
  { chalk, text, options }: Style,
): string => {
  const count = `${versions.length} ${versions.length === 1 ? 'version' : 'versions'}`;
  const now = isGone ? ' of a file that is gone' : ', the newest first: the file as it is';
  const rows = versions.map((version) => ({
    number: String(version.number),
    at: timeText(Date.parse(version.at), zone),
    by: version.by ?? '',
    what: oneLine(version.what === '' ? 'as it was before' : version.what),
    size: sizeText(version.lines),
  }));
  const widest = (of: 'number' | 'by' | 'size'): number =>
    Math.max(0, ...rows.map((row) => displayWidth(row[of])));
  const [number, by, size] = [widest('number'), widest('by'), widest('size')];
  const left = options.width - 2 - number - 2 - 16 - 2 - by - 2 - 2 - size;
  const mark = text('…');
  return [
    chalk.bold(text(oneLine(`${file}: ${count}${now}`))),
    ...rows.map((row) =>
      text(
        [
          `  ${cell(row.number, number, mark, true)}`,
          row.at,
          cell(row.by, by, mark),
          cell(row.what, left, mark),
          cell(row.size, size, mark, true),
        ].join('  '),
      ).trimEnd(),
    ),
    '',
  ].join('\n');
};
