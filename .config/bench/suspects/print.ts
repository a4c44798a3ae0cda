import type { Outcome } from './policies.ts';
import { leaderBrier, mean, reliability, type Verdict } from './score.ts';

/** `97.3 %`, or a dash where there is nothing to count. */
export const percent = (part: number, whole: number): string =>
  whole === 0 ? '–' : `${((100 * part) / whole).toFixed(1)} %`;

const count = (verdicts: readonly Verdict[], is: (verdict: Verdict) => boolean): number =>
  verdicts.filter(is).length;

/** One line a fault: how many, how many no reading shows, and how often the right one is first. */
export const faultLines = (verdicts: readonly Verdict[]): string[] => {
  const names = [...new Set(verdicts.map(({ fault }) => fault))].sort();
  const line = (name: string): string => {
    const own = verdicts.filter(({ fault }) => fault === name);
    const seen = own.filter((one) => one.seen);
    const told = own[0]?.told ? ' ' : '*';
    return [
      `  ${told} ${name.padEnd(31)}`,
      String(own.length).padStart(5),
      percent(own.length - seen.length, own.length).padStart(9),
      percent(
        count(seen, ({ first }) => first),
        seen.length,
      ).padStart(9),
      percent(
        count(seen, ({ firstAlike }) => firstAlike),
        seen.length,
      ).padStart(11),
    ].join('');
  };
  return [
    `    ${'fault'.padEnd(31)}${'of it'.padStart(5)}${'unseen'.padStart(9)}${'first'.padStart(9)}${'or alike'.padStart(11)}`,
    ...names.map(line),
    '  * readings cannot tell it from another suspect; "or alike" counts that one, too',
  ];
};

/** Brier scores and the table of reliability. */
export const scoreLines = (verdicts: readonly Verdict[]): string[] => {
  const seen = verdicts.filter((one) => one.seen);
  const told = seen.filter((one) => one.told);
  const brier = (of: readonly Verdict[]): string => mean(of.map((one) => one.brier)).toFixed(4);
  return [
    `  Brier of all classes, Σ(p − true)²:  told ${brier(told)}   all ${brier(seen)}`,
    `  Brier of the first, (p − right)²:    told ${leaderBrier(told).toFixed(4)}   all ${leaderBrier(seen).toFixed(4)}`,
    '  first said      vehicles     said    right',
    ...reliability(seen).map(
      ({ decile, count: n, said, right }) =>
        `  ${decile * 10} to ${decile * 10 + 10} %`.padEnd(16) +
        `${String(n).padStart(10)}${said.toFixed(3).padStart(9)}${right.toFixed(3).padStart(9)}`,
    ),
  ];
};

/** One line a policy: what it costs in the mean, and how its jobs end. */
export const policyLine = (name: string, outcomes: readonly Outcome[]): string => {
  const share = (end: Outcome['end']): string =>
    percent(outcomes.filter((one) => one.end === end).length, outcomes.length).padStart(9);
  return [
    `  ${name.padEnd(26)}`,
    mean(outcomes.map(({ cost }) => cost))
      .toFixed(2)
      .padStart(9),
    mean(outcomes.map(({ tests }) => tests))
      .toFixed(1)
      .padStart(7),
    share('right'),
    share('wrong'),
    share('escalated'),
  ].join('');
};
