import type { Ranking } from '../../core/suspects/ranking.ts';
import type { Worksheet } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import { nowLines } from '../now/now-lines.ts';
import { footer } from '../sheet/footer.ts';
import { wrap } from '../sheet/grid.ts';
import { mayLeaveLines } from '../sheet/head.ts';
import { heading, judgedWith, warningLines } from '../sheet/heading.ts';
import type { Style } from '../style.ts';
import { meaningText } from '../words/finding-meaning.ts';
import { adviceLines } from './advice-lines.ts';
import { pairText } from './brief.ts';
import { byHandLines } from './by-hand.ts';
import { ledgerLines, suspectLines } from './suspect-lines.ts';
import { nextTestLines } from './test-lines.ts';

/** Names for suspects, as people know them. */
export const suspectTitles = ({ suspects }: Ranking): ReadonlyMap<string, string> =>
  new Map(suspects.map(({ id, title }) => [id, title]));

const section = (title: string, lines: readonly string[], { chalk, text }: Style): string | null =>
  lines.length === 0 ? null : [chalk.bold(text(title)), ...lines].join('\n');

/** Findings that no one suspect explains together: two faults, or a reading that is wrong. */
const conflictLines = ({ conflict }: Ranking, { findings }: Worksheet, style: Style): string[] => {
  if (conflict.length === 0) return [];
  const named = conflict.map((id) => {
    const finding = findings.find((one) => one.id === id);
    return finding
      ? `${finding.checkTitle} (${finding.subject}): ${meaningText(finding, style.options)}`
      : id;
  });
  const head = 'More than one fault, or a wrong reading: no one suspect explains all of these.';
  return [head, ...named.map((one) => `- ${one}`)].flatMap((line) =>
    wrap(
      style.text(oneLine(line)),
      style.options.width,
      line.startsWith('- ') ? 2 : 0,
      line.startsWith('- ') ? 4 : 0,
    ),
  );
};

const pairLines = (ranking: Ranking, { options, text }: Style): string | null => {
  const pair = pairText(ranking);
  return pair === null ? null : wrap(text(oneLine(pair)), options.width).join('\n');
};

/**
 * What to do now, the suspects, why, and the next tests worth their minutes; or why there are none.
 *
 * @param file the job file as it was named, for the line to type
 */
export const renderNext = (sheet: Worksheet, file: string, style: Style): string => {
  const { ranking } = sheet;
  const { options, text } = style;
  const head = [
    heading(sheet, style),
    ...(options.all ? [judgedWith(sheet, style)] : []),
    ...mayLeaveLines(sheet, style),
    ...warningLines(sheet, style),
  ].join('\n');
  const top = `${head}\n\n${nowLines(sheet, file, style)}`;
  if (ranking === null) {
    const why = sheet.findings.some(({ verdict, newest }) => verdict === 'out' && newest)
      ? 'No pack of this job has suspects for what is out.'
      : 'Nothing is out, so there is no suspect.';
    return `${top}\n\n${wrap(text(why), options.width).join('\n')}\n\n${footer(style)}\n`;
  }
  const titles = suspectTitles(ranking);
  const [first] = ranking.suspects;
  const parts = [
    top,
    section('Suspects', suspectLines(ranking, style), style),
    pairLines(ranking, style),
    conflictLines(ranking, sheet, style).join('\n') || null,
    first ? section('Why', ledgerLines(first, titles, style), style) : null,
    options.all ? section('By hand', byHandLines(ranking, style), style) : null,
    section(
      'Next tests, the most worth its minutes first',
      nextTestLines(ranking, titles, sheet.job.costs.currency, style),
      style,
    ),
    ranking.advice ? adviceLines(ranking.advice, ranking, sheet.job.costs.currency, style).join('\n') : null,
    footer(style),
  ];
  return `${parts.filter((part) => part !== null).join('\n\n')}\n`;
};
