import type { Finding } from '../../core/finding.ts';
import { cornerStandings } from '../../core/outlook/corner-standing.ts';
import { together } from '../../core/outlook/together.ts';
import type { Worksheet } from '../../core/worksheet.ts';
import { oneLine } from '../clean.ts';
import { displayWidth } from '../columns.ts';
import { limitsText } from '../numbers.ts';
import type { Style } from '../style.ts';
import { meaningText } from '../words/finding-meaning.ts';
import { kept, released, wrap } from './grid.ts';
import { type OutGroup, outGroups, valuesText } from './out-groups.ts';
import { summary } from './summary.ts';

const labelWidth = 'waived'.length;
const indent = 2 + labelWidth + 2;

const unique = (words: readonly string[]): string[] => [...new Set(words)].filter((word) => word !== '');

/** `LF RF LR RR`, `supply, key-on and running`; nothing where the title says it all. */
const whereText = (findings: readonly Finding[]): string => {
  const [first] = findings;
  if (!first || first.kind === 'lamp') return '';
  const subjects = unique(findings.map(({ subject }) => subject));
  const isWhole = subjects.length === 1 && (subjects[0] === 'body' || first.channels.join() === subjects[0]);
  const states = unique(findings.map(({ state }) => state ?? ''));
  return [isWhole ? '' : subjects.join(' '), states.length > 1 ? states.join(' and ') : '']
    .filter((part) => part !== '')
    .join(', ');
};

/** `C3A21 C3A22 present, supply-range; C3A23 stored, signal-range`: codes of one kind together. */
const codesText = (findings: readonly Finding[]): string => {
  const byKind = new Map<string, string[]>();
  for (const { subject, remarks } of findings) {
    const remark = remarks.find((one) => one.kind === 'code');
    const kind = remark
      ? [remark.status, remark.means?.replaceAll('-', ' ') ?? ''].filter(Boolean).join(', ')
      : '';
    byKind.set(kind, [...(byKind.get(kind) ?? []), subject]);
  }
  return [...byKind]
    .map(([kind, codes]) => [unique(codes).join(' '), kind].filter(Boolean).join(' '))
    .join('; ');
};

/** `Reference at the plug, LF RF LR RR: 3.60 to 3.62 V, wants 4.75 to 5.25 V`. */
const headOf = ({ findings }: OutGroup, { options, text }: Style): string => {
  const [first] = findings;
  if (!first) return '';
  if (first.kind === 'stored-codes') {
    const several = unique(findings.map(({ subject }) => subject)).length > 1;
    return text(oneLine(`${first.checkTitle}${several ? 's' : ''}: ${codesText(findings)}`));
  }
  const where = whereText(findings);
  const title = text(oneLine(where === '' ? first.checkTitle : `${first.checkTitle}, ${where}`));
  const value = valuesText(findings, options);
  if (value === '') return title;
  const wants = first.limits && first.measured ? limitsText(first.limits, first.measured.unit, options) : '';
  const parts = [value, ...(wants === '' ? [] : [`wants ${wants}`])].map((part) => kept(text(part)));
  return `${title}: ${parts.join(', ')}`;
};

const painted = (label: string, { chalk }: Style): string => {
  const word = label.replace('OUT ', '').padEnd(labelWidth);
  if (label === 'OUT hold') return chalk.bold.magenta(word);
  return label === 'OUT look' ? chalk.bold(word) : word;
};

/** A group on a line, with what it means behind it or, where that does not fit, below it. */
export const groupLines = (group: OutGroup, style: Style): string[] => {
  const { text, options } = style;
  const [first] = group.findings;
  if (!first) return [];
  const head = headOf(group, style);
  const means = text(oneLine(meaningText(first, options)));
  const width = options.width - indent;
  const isMeasured = valuesText(group.findings, options) !== '';
  const whole = means === '' ? head : `${head}${isMeasured || head.includes(': ') ? ';' : ':'} ${means}`;
  const folded =
    !isMeasured || displayWidth(whole) <= width
      ? wrap(whole, width, 0, 2)
      : [...wrap(head, width, 0, 2), ...wrap(means, width, 2)];
  return folded
    .filter((line) => line.trim() !== '')
    .map(released)
    .map((line, at) => (at === 0 ? `  ${painted(group.label, style)}  ${line}` : ' '.repeat(indent) + line));
};

/** Groups that are only named: `also close: Left against right (front rear)`. */
const namedLines = (groups: readonly OutGroup[], { text, options }: Style): string[] => {
  if (groups.length === 0) return [];
  const names = groups.map(({ findings, label }) => {
    const where = whereText(findings);
    const title = findings[0]?.checkTitle ?? '';
    return `${title}${where === '' ? '' : ` (${where})`}${label === 'OUT look' ? '' : `: ${label.replace('OUT ', '')}`}`;
  });
  return wrap(text(oneLine(`and ${names.join('; ')}`)), options.width, indent, indent + 2);
};

/**
 * What is out: one line for each thing, the most telling first. What holds the vehicle is told in full.
 *
 * @param mostLooks of what only deserves a look so many have lines of their own; the rest is named
 */
export const outPart = (sheet: Worksheet, style: Style, mostLooks: number): string => {
  const { findings } = sheet;
  const { chalk, text, options } = style;
  // The line under the corners says it already.
  const line = together(sheet, cornerStandings(sheet));
  const told = new Set(line.kind === 'told' ? line.findings : []);
  const groups = outGroups(
    findings.filter((one) => one.weight === 'hold' || !told.has(one)),
    options,
  );
  const holds = groups.filter(({ label }) => label === 'OUT hold');
  const others = groups.filter(({ label }) => label !== 'OUT hold');
  // Notes are for the record: they have lines of their own only where there is little else.
  const first = others.filter(({ label }) => label !== 'OUT note' || groups.length <= mostLooks);
  const shown = first.slice(0, mostLooks);
  return [
    ...wrap(text(`Findings: ${summary(findings)}`), options.width, 0, 2).map((line) => chalk.bold(line)),
    ...[...holds, ...shown].flatMap((group) => groupLines(group, style)),
    ...namedLines(
      others.filter((group) => !shown.includes(group)),
      style,
    ),
  ].join('\n');
};
