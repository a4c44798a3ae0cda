import type { Outcome } from './policies.ts';
import { leaderBrier, mean, meanBrier, reliability, type Verdict } from './score.ts';

/** `97.3 %`, or a dash where there is nothing to count. */
export const percent = (part: number, whole: number): string =>
  whole === 0 ? '–' : `${((100 * part) / whole).toFixed(1)} %`;

const share = (verdicts: readonly Verdict[], is: (verdict: Verdict) => boolean): string =>
  percent(verdicts.filter(is).length, verdicts.length);

/** Counts of equal words, the most frequent first: `signal.LR 3, battery 1`. */
export const tally = (words: readonly string[]): string =>
  [...new Set(words)]
    .map((word) => [word, words.filter((one) => one === word).length] as const)
    .sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))
    .map(([word, count]) => `${word} ${count}`)
    .join(', ');

/** One line a fault: how many, how many no reading shows, how often the right one is first, and what is first instead. */
export const faultLines = (verdicts: readonly Verdict[]): string[] => {
  const single = verdicts.filter(({ pair }) => !pair);
  const names = [...new Set(single.map(({ fault }) => fault))].sort();
  const line = (name: string): string => {
    const own = single.filter(({ fault }) => fault === name);
    const seen = own.filter((one) => one.seen);
    const instead = seen.filter(({ first }) => !first).map(({ leading }) => leading.split('.')[0] ?? '');
    return [
      `  ${own[0]?.told ? ' ' : '*'} ${name.padEnd(38)}`,
      String(own.length).padStart(5),
      percent(own.length - seen.length, own.length).padStart(9),
      share(seen, ({ first }) => first).padStart(9),
      share(seen, ({ firstAlike }) => firstAlike).padStart(10),
      share(seen, ({ inThree }) => inThree).padStart(10),
      `  ${tally(instead)}`,
    ]
      .join('')
      .trimEnd();
  };
  return [
    `    ${'fault'.padEnd(38)}${'of it'.padStart(5)}${'unseen'.padStart(9)}${'first'.padStart(9)}${'or alike'.padStart(10)}${'in three'.padStart(10)}  first instead`,
    ...names.map(line),
    '  * readings cannot tell its class from another; "or alike" counts that one, too',
  ];
};

/** Brier scores, pairs and the table of reliability. */
export const scoreLines = (verdicts: readonly Verdict[]): string[] => {
  const seen = verdicts.filter((one) => one.seen);
  const single = seen.filter(({ pair }) => !pair);
  const told = single.filter((one) => one.told);
  const pairs = seen.filter(({ pair }) => pair);
  const row = (what: string, of: readonly Verdict[]): string =>
    [
      `  ${what.padEnd(24)}${String(of.length).padStart(6)}`,
      share(of, ({ leads }) => leads).padStart(9),
      share(of, ({ first }) => first).padStart(9),
      share(of, ({ firstAlike }) => firstAlike).padStart(10),
      share(of, ({ inThree }) => inThree).padStart(10),
      meanBrier(of).toFixed(4).padStart(9),
      leaderBrier(of).toFixed(4).padStart(9),
    ].join('');
  return [
    `  ${''.padEnd(24)}${'seen'.padStart(6)}${'leads'.padStart(9)}${'class'.padStart(9)}${'or alike'.padStart(10)}${'in three'.padStart(10)}${'Brier'.padStart(9)}${'leader’s'.padStart(9)}`,
    row('one fault, told', told),
    row('one fault, all', single),
    row('two faults', pairs),
    row('all', seen),
    `  of two faults: the pair is named in ${share(pairs, ({ named }) => named)}`,
    '  first class said  vehicles     said    right',
    ...reliability(seen).map(
      ({ decile, count, said, right }) =>
        `  ${decile * 10} to ${decile * 10 + 10} %`.padEnd(18) +
        `${String(count).padStart(10)}${said.toFixed(3).padStart(9)}${right.toFixed(3).padStart(9)}`,
    ),
  ];
};

/** One line a policy: what it costs in the mean, and how its jobs end. */
export const policyLine = (name: string, outcomes: readonly Outcome[]): string => {
  const ended = (end: Outcome['end']): string =>
    percent(outcomes.filter((one) => one.end === end).length, outcomes.length).padStart(10);
  return [
    `  ${name.padEnd(26)}`,
    mean(outcomes.map(({ cost }) => cost))
      .toFixed(2)
      .padStart(9),
    mean(outcomes.map(({ tests }) => tests))
      .toFixed(1)
      .padStart(7),
    ended('right'),
    ended('wrong'),
    ended('escalated'),
  ].join('');
};
