import type { BriefWorksheet } from '../../core/worksheet.ts';
import type { Reason } from '../../core/worksheet-parts.ts';
import { oneLine } from '../clean.ts';
import type { Style } from '../style.ts';
import { reasonText } from '../words/reason-words.ts';
import { wrap } from './grid.ts';

/** The most reasons shown for one hold point before the rest are counted. */
const most = 6;

type FindingReason = Extract<Reason, { kind: 'finding' }>;

/** Findings of one check in one line, with all that it is about. */
const groupFindings = (findings: readonly FindingReason[]): string[] => {
  const groups = new Map<string, string[]>();
  for (const { title, subject, state, stale } of findings) {
    const tail = stale ? 'out, and not read again since the work' : 'out';
    const key = `${title}|${tail}`;
    groups.set(key, [...(groups.get(key) ?? []), [subject, state].filter(Boolean).join(' ')]);
  }
  return [...groups].map(([key, subjects]) => {
    const [title, tail] = key.split('|');
    return `${title} (${subjects.join(', ')}): ${tail}`;
  });
};

/** The steps stand in their own list just above; more than two of them are counted here. */
const groupSteps = (steps: readonly string[]): readonly string[] =>
  steps.length > 2 ? [`${steps.length} steps outstanding, as listed above`] : steps;

/** What a hold point lacks, the findings of one check in a line. */
export const reasonLines = (reasons: readonly Reason[], zone: string, all: boolean): readonly string[] => {
  const findings = reasons.filter((reason) => reason.kind === 'finding');
  const steps = reasons.filter(({ kind }) => kind === 'step-open').map((reason) => reasonText(reason, zone));
  const others = reasons.filter(({ kind }) => kind !== 'finding' && kind !== 'step-open');
  const lines = [
    ...groupFindings(findings),
    ...(all ? steps : groupSteps(steps)),
    ...others.map((reason) => reasonText(reason, zone)),
  ];
  if (all || lines.length <= most) return lines;
  return [...lines.slice(0, most), `and ${lines.length - most} more (--all shows them)`];
};

/** Each hold point with what it still lacks. */
export const holdPointsList = (sheet: BriefWorksheet, style: Style): string | null => {
  const { chalk, text, options } = style;
  if (sheet.holdPoints.length === 0) return null;
  const lines = sheet.holdPoints.flatMap(({ title, clear, holds, reasons }) => {
    const open = holds ? chalk.bold('NOT CLEAR'.padEnd(10)) : 'reminder'.padEnd(10);
    const state = clear ? 'clear'.padEnd(10) : open;
    const why = reasonLines(reasons, sheet.job.zone, options.all);
    return [
      `  ${state} ${oneLine(title)}`,
      ...why.flatMap((line) => wrap(oneLine(line), options.width, 13, 15)),
    ];
  });
  return `${chalk.bold('Hold points')}\n${text(lines.join('\n'))}`;
};
