import type { Finding } from '../../../src/core/finding.ts';
import type { Worksheet } from '../../../src/core/worksheet.ts';
import type { Key } from './read-cases.ts';
import type { Walk } from './walk.ts';

/** How one written case came out. */
export interface Score {
  readonly name: string;
  readonly healthy: boolean;
  readonly pair: boolean;
  readonly leads: boolean;
  readonly inThree: boolean;
  /** Of two faults, both in the first three. */
  readonly bothInThree: boolean;
  readonly firstTest: boolean;
  readonly forbidden: boolean;
  readonly alarms: readonly string[];
  readonly verdicts: { readonly right: number; readonly of: number; readonly wrong: readonly string[] };
  readonly walk: Walk | null;
  readonly good: boolean;
  readonly line: string;
  readonly details: readonly string[];
}

const alarmOf = ({ verdict, weight, current, waived }: Finding): boolean =>
  verdict === 'out' && weight !== 'note' && current && waived === null;

const heaviest = (findings: readonly Finding[]): string => {
  const order = ['out', 'too-close', 'within', 'not-taken'];
  return (
    findings.map(({ verdict }) => verdict).sort((a, b) => order.indexOf(a) - order.indexOf(b))[0] ?? 'absent'
  );
};

const verdictsOf = (key: Key, { findings }: Worksheet): Score['verdicts'] => {
  const wanted = Object.entries(key.verdicts ?? {});
  const wrong = wanted.flatMap(([id, verdict]) => {
    const found = heaviest(findings.filter((one) => `${one.check}:${one.subject}` === id));
    return found === verdict ? [] : [`${id} ${found} (wants ${verdict})`];
  });
  return { right: wanted.length - wrong.length, of: wanted.length, wrong };
};

/** What the program would do first: order the part that it advises, or do the test that it names. */
interface First {
  readonly test: string;
  readonly part: string | null;
}

const firstOf = ({ ranking }: Worksheet): First => ({
  test: ranking?.nextTests[0]?.id ?? '',
  part: ranking?.advice?.met ? (ranking.suspects[0]?.id ?? '') : null,
});

const isAmong = ({ test, part }: First, tests: readonly string[], parts: readonly string[]): boolean =>
  tests.includes(test) || (part !== null && parts.includes(part));

const healthyLine = (name: string, alarms: readonly string[], top: string): string =>
  `${name}: healthy; ${alarms.length > 0 ? `ALARMS ${alarms.join(', ')}` : 'quiet'}; leads ${top}`;

const illLine = (
  { name, leads, inThree, firstTest, forbidden, walk }: Omit<Score, 'good' | 'line' | 'details'>,
  key: Key,
  top: string,
  { test, part }: First,
): string => {
  const place = leads ? 'leads' : inThree ? 'in three' : 'MISSED';
  const wants = firstTest ? '' : ` (wants ${key.firstTests.slice(0, 3).join(', ')})`;
  const first = part === null ? test || '-' : `ORDER ${part}`;
  const walked = `walk ${walk?.end} ${walk?.part ?? ''} after ${walk?.tests.join(', ') || 'nothing'}`;
  return `${name}: ${key.cause.join(' + ')} | ${place}: ${top} | first ${first}${wants}${forbidden ? ' FORBIDDEN' : ''} | ${walked}`;
};

const detailsOf = ({ ranking }: Worksheet, { wrong }: Score['verdicts'], walked: Walk | null): string[] => [
  ...(walked?.lacks ?? []).map((one) => `walk ended with ${one}`),
  ...wrong.map((one) => `verdict ${one}`),
  ...(ranking?.suspects ?? []).slice(0, 4).map(({ id, ledger }) => {
    const lines = ledger.map(({ group, observed, points }) => `${group}=${observed} ${points.toFixed(1)}`);
    return `${id}: ${lines.join('; ')}`;
  }),
  ...(ranking?.nextTests ?? [])
    .slice(0, 6)
    .map(
      ({ id, saves, minutes, bits }) =>
        `test ${id}: saves ${saves?.toFixed(1)}, ${minutes} min, ${bits.toFixed(2)} bits`,
    ),
  ...(ranking?.advice?.conditions ?? []).map(
    ({ id, met, lacks }) => `advice ${id}: ${met ? 'met' : `no, ${lacks.join(', ')}`}`,
  ),
];

/** How a worksheet compares with the key of its case. */
export const scoreOf = (name: string, key: Key, sheet: Worksheet, walk: Walk | null): Score => {
  const healthy = key.cause.length === 0;
  const suspects = sheet.ranking?.suspects ?? [];
  const three = suspects.slice(0, 3).map(({ id }) => id);
  const first = firstOf(sheet);
  const alarms = sheet.findings.filter(alarmOf).map(({ check, subject }) => `${check}:${subject}`);
  const verdicts = verdictsOf(key, sheet);
  const score = {
    name,
    healthy,
    pair: key.cause.length > 1,
    leads: key.cause.includes(three[0] ?? ''),
    inThree: key.cause.some((one) => three.includes(one)),
    bothInThree: key.cause.every((one) => three.includes(one)),
    firstTest: isAmong(first, key.firstTests, key.cause),
    forbidden: isAmong(first, key.neverFirst, key.neverFirst),
    alarms: healthy ? alarms : [],
    verdicts,
    walk,
  };
  const shown = suspects.slice(0, 3).map(({ id, probability }) => `${id} ${Math.round(probability * 100)}`);
  const top = shown.join(', ') || '-';
  const right = score.leads && score.firstTest && !score.forbidden && walk?.end === 'right';
  return {
    ...score,
    good: healthy ? alarms.length === 0 : right,
    line: healthy ? healthyLine(name, alarms, top) : illLine(score, key, top, first),
    details: detailsOf(sheet, verdicts, walk),
  };
};

const share = (some: number, of: number): string =>
  `${some} of ${of} (${of > 0 ? Math.round((100 * some) / of) : 0} %)`;

/** The table of all cases, and whether each target is reached. */
export const summary = (
  scores: readonly Score[],
  all: number,
): { readonly lines: readonly string[]; readonly reached: boolean } => {
  const ill = scores.filter(({ healthy }) => !healthy);
  const well = scores.filter(({ healthy }) => healthy);
  const pairs = ill.filter(({ pair }) => pair);
  const count = (of: readonly Score[], is: (one: Score) => boolean): number => of.filter(is).length;
  const right = count(ill, ({ walk }) => walk?.end === 'right');
  const wrong = count(ill, ({ walk }) => walk?.end === 'wrong');
  const rows: [string, number, number, number][] = [
    ['the cause leads', count(ill, (one) => one.leads), ill.length, 0.85],
    ['in the first three', count(ill, (one) => one.inThree), ill.length, 0.97],
    ['both of two faults in the first three', count(pairs, (one) => one.bothInThree), pairs.length, 0.9],
    ['a good first test', count(ill, (one) => one.firstTest), ill.length, 0.85],
    ['the right part in the end', right, ill.length, 0.95],
    ['healthy vehicles without an alarm', count(well, (one) => one.alarms.length === 0), well.length, 1],
    ['forbidden advice not given', count(ill, (one) => !one.forbidden), ill.length, 1],
    ['no wrong part advised', ill.length - wrong, ill.length, 1],
    ['cases that can be read', scores.length, all, 1],
  ];
  const verdicts = scores.reduce((sum, one) => sum + one.verdicts.right, 0);
  const telling = scores.reduce((sum, one) => sum + one.verdicts.of, 0);
  return {
    lines: [
      ...rows.map(
        ([what, some, of, target]) =>
          `  ${what.padEnd(40)}${share(some, of).padEnd(20)} target ${Math.round(target * 100)} %${some >= target * of ? '' : '  NOT REACHED'}`,
      ),
      `  ${'telling verdicts as the key has them'.padEnd(40)}${share(verdicts, telling)}`,
    ],
    reached: rows.every(([, some, of, target]) => some >= target * of),
  };
};
