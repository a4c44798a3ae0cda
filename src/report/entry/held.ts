import { counts } from '../../core/finding.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import type { WorksheetHoldPoint } from '../../core/worksheet-parts.ts';
import { oneLine } from '../clean.ts';
import { effortText } from '../now/now-lines.ts';
import { wrap } from '../sheet/grid.ts';
import { reasonLines } from '../sheet/hold-points.ts';
import type { Style } from '../style.ts';
import { commandText } from '../words/command-words.ts';
import { actsText } from '../words/danger-words.ts';
import { saysText } from '../words/finding-words.ts';
import { nowTitle } from '../words/now-words.ts';

/**
 * Why an entry was not written: what its hold point lacks, and the nearest way out.
 *
 * @param entry such as `released vehicle`
 */
export const heldText = (
  file: string,
  entry: string,
  { title, reasons }: WorksheetHoldPoint,
  { now, job }: BriefWorksheet,
  { chalk, text, options }: Style,
): string => {
  const lines = (line: string, first: number, rest = first): string[] =>
    wrap(text(oneLine(line)), options.width, first, rest);
  const why = reasonLines(reasons, job.zone, true);
  return `${[
    ...lines(`cornerwise: ${entry} was not written: "${title}" is not clear`, 0, 2).map((line) =>
      chalk.bold(line),
    ),
    ...why.flatMap((line) => lines(line, 2, 4)),
    ...lines(`First: ${nowTitle(now)}${effortText(now)}`, 0, 2),
    ...(now.command === null ? [] : [text(`  ${commandText(now.command, file)}`)]),
    ...lines('To write it all the same, say why and who decided it: --despite "…" --by "…"', 0, 2),
  ].join('\n')}\n`;
};

/** What is out at hold, and dangerous, where a vehicle leaves without a repair; null where nothing is. */
export const unsafeLines = (
  { findings, dangers }: BriefWorksheet,
  { chalk, text, options }: Style,
): string | null => {
  const held = findings.filter((finding) => counts(finding) && finding.weight === 'hold');
  const lines = [
    ...dangers.map(({ forbids }) => `do not ${actsText(forbids)}`),
    ...held.map((finding) => `${finding.checkTitle} (${finding.subject}): ${saysText(finding, options)}`),
  ];
  if (lines.length === 0) return null;
  return [
    chalk.bold('Left as it is, and not safe to release'),
    ...[...new Set(lines)].flatMap((line) => wrap(text(oneLine(line)), options.width, 2, 4)),
  ].join('\n');
};
