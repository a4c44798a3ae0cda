import { type Finding, weightOrder } from '../../core/finding.ts';
import { margin } from '../../core/readings/verdict.ts';
import { limitsText, valueText } from '../numbers.ts';
import type { ReportOptions } from '../style.ts';
import { label, worstFirst } from './findings.ts';

/** Findings that say one thing, at one or several places and in one or several states. */
export interface OutGroup {
  readonly label: string;
  /** The worst first. */
  readonly findings: readonly Finding[];
}

/** Older than work on what it depends on: the steps ask for it again, and it stays out until then. */
const isSuperseded = ({ stale, intermittent }: Finding): boolean => stale && !intermittent;

/** How far beyond its limits a reading is, in their unit. */
const beyond = ({ measured, limits }: Finding): number =>
  measured === null || limits === null ? 0 : -(margin(measured.value, limits) ?? 0);

/** A reading beyond one band is beyond every tighter band, too: only the widest that it left is told. */
const isImplied = (finding: Finding, findings: readonly Finding[]): boolean =>
  finding.kind === 'range' &&
  findings.some(
    (one) =>
      one !== finding &&
      one.kind === 'range' &&
      one.verdict === 'out' &&
      one.snapshot === finding.snapshot &&
      one.side === finding.side &&
      one.channels.join() === finding.channels.join() &&
      weightOrder[one.weight] <= weightOrder[finding.weight] &&
      beyond(one) < beyond(finding),
  );

const isShown = (finding: Finding): boolean =>
  (finding.verdict === 'out' || finding.verdict === 'too-close') &&
  (finding.newest || finding.intermittent) &&
  !isSuperseded(finding);

/** Measured faults tell more than the codes that follow from them, and those more than the lamp. */
const telling: Readonly<Record<string, number>> = { 'stored-codes': 1, 'cleared-not-tested': 1, lamp: 2 };

const tellingOf = ({ kind }: Finding): number => telling[kind] ?? 0;

/** What two findings must share to stand on one line. */
const keyOf = (finding: Finding, options: ReportOptions): string => {
  const { check, kind, limits, measured } = finding;
  if (kind === 'stored-codes') return `${check}|${label(finding)}`;
  const wants = limits && measured ? limitsText(limits, measured.unit, options) : '';
  return [check, label(finding), finding.side ?? '', wants, finding.words ?? ''].join('|');
};

/** Everything that is out or too close to call now, in groups: the heaviest and most telling first. */
export const outGroups = (findings: readonly Finding[], options: ReportOptions): OutGroup[] => {
  const shown = findings.filter(isShown);
  const sorted = shown
    .filter((one) => !isImplied(one, shown))
    .sort((a, b) => {
      const byLabel = rankOf(a) - rankOf(b);
      return byLabel || tellingOf(a) - tellingOf(b) || worstFirst(a, b);
    });
  const groups = new Map<string, Finding[]>();
  for (const finding of sorted) {
    const key = keyOf(finding, options);
    groups.set(key, [...(groups.get(key) ?? []), finding]);
  }
  return [...groups.values()].map((some) => ({ label: some[0] ? label(some[0]) : '', findings: some }));
};

const order = ['OUT hold', 'OUT look', 'close', 'OUT note', 'waived'];

const rankOf = (finding: Finding): number => order.indexOf(label(finding));

/** `3.60 to 3.62 V`, the least and the greatest of what was read; one value where they look the same. */
export const valuesText = (findings: readonly Finding[], options: ReportOptions): string => {
  const measured = findings.flatMap((one) => one.measured ?? []).sort((a, b) => a.value - b.value);
  const [least, greatest] = [measured[0], measured.at(-1)];
  if (!least || !greatest) return '';
  const [from, to] = [valueText(least, options), valueText(greatest, options)];
  if (from === to) return from;
  const unit = ` ${from.split(' ').at(-1)}`;
  return from.endsWith(unit) && to.endsWith(unit)
    ? `${from.slice(0, -unit.length)} to ${to}`
    : `${from} to ${to}`;
};
