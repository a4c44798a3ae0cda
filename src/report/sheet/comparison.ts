import type { Measured } from '../../core/finding.ts';
import type { ComparedFinding, ComparedReading, Comparison, Standing } from '../../core/loop/compare.ts';
import { oneLine } from '../clean.ts';
import { valueAndSpreadText, valueText } from '../numbers.ts';
import type { ReportOptions, Style } from '../style.ts';
import { standingRank, standingSummary, standingWords } from '../words/standing-words.ts';
import { breakable, grid, wrap } from './grid.ts';

const none = '-';

const valueOr = (measured: Measured | null, options: ReportOptions): string =>
  measured === null ? none : valueText(measured, options);

const changeText = (change: Measured | null, options: ReportOptions): string => {
  if (change === null) return none;
  const text = valueAndSpreadText(change, options);
  return change.value > 0 && text !== 'open' ? `+${text}` : text;
};

/** What the sheet shows without being asked: what is not taken again stands among the steps. */
const shown: readonly (Standing | null)[] = ['still-out', 'newly-out', 'too-close', 'fixed'];

/** One row of a comparison, in words: what and where, before, after, change, how it stands. */
export const comparisonRows = (
  { readings, findings }: Comparison,
  options: ReportOptions,
  everything: boolean,
): string[][] => {
  const shows = ({ standing }: ComparedReading | ComparedFinding): boolean =>
    everything || shown.includes(standing);
  const ofReading = ({ channel, state, before, after, change, standing }: ComparedReading) => ({
    standing,
    cells: [
      `${channel} ${state}`,
      valueOr(before, options),
      valueOr(after, options),
      changeText(change, options),
      standing === null ? '' : standingWords[standing],
    ],
  });
  const ofFinding = ({ title, subject, state, before, after, standing }: ComparedFinding) => ({
    standing,
    cells: [
      [title, subject, state ?? ''].join(' ').trim(),
      before === null ? none : before.replace('-', ' '),
      after === null ? none : after.replace('-', ' '),
      '',
      standingWords[standing],
    ],
  });
  return [...readings.filter(shows).map(ofReading), ...findings.filter(shows).map(ofFinding)]
    .sort((a, b) => standingRank(a.standing) - standingRank(b.standing))
    .map(({ cells }) => cells.map(oneLine));
};

export const comparisonHeads = ['what', 'before', 'after', 'change', 'stands'] as const;

/** A page that is narrower than this leaves the first column no room beside the usual ones. */
const narrow = 76;

/** Widths of what, before, after, change and stands; the first has all that is left. */
const columns = (width: number): number[] => {
  const others = width < narrow ? [9, 9, 10, 9] : [10, 10, 17, 15];
  const gaps = 2 * others.length;
  return [Math.max(11, width - others.reduce((sum, one) => sum + one, gaps)), ...others];
};

/**
 * Readings and checks side by side.
 *
 * @param everything true for what stands as it stood, too
 */
export const comparisonTable = (
  title: string,
  comparison: Comparison,
  style: Style,
  everything: boolean,
): string => {
  const { options, chalk, text } = style;
  const widths = columns(options.width);
  const rows = comparisonRows(comparison, options, everything).map((cells) =>
    cells.map((cell, place) => breakable(text(cell), widths[place] ?? 0)),
  );
  const summary = standingSummary(comparison);
  const head = wrap(
    text(`${title}: ${summary === '' ? 'nothing to compare' : summary}`),
    options.width,
    0,
    2,
  );
  const heads = comparisonHeads.map((one) => chalk.dim(one));
  return [
    ...head.map((line) => chalk.bold(line)),
    ...(rows.length > 0 ? [grid([heads, ...rows], widths)] : []),
  ].join('\n');
};

/** In one line how what was read before the work stands after it; null where nothing was worked on or compared. */
export const beforeAfterLine = (comparison: Comparison | null, { options, text }: Style): string | null => {
  const summary = comparison === null ? '' : standingSummary(comparison);
  return summary === ''
    ? null
    : wrap(text(`Before the work against after: ${summary}`), options.width, 0, 2).join('\n');
};

/** What was read before the work against what was read after it; null where nothing was worked on or compared. */
export const beforeAfterTable = (comparison: Comparison | null, style: Style): string | null =>
  comparison === null || comparison.readings.length + comparison.findings.length === 0
    ? null
    : comparisonTable('Before the work against after', comparison, style, style.options.all);
