import type { Weight } from '../job.ts';
import { isJudged, type Row } from './row.ts';

/** How bad a row is, the worst first. */
export const severities = [
  'cannot-be-judged',
  'hold',
  'look',
  'note',
  'not-clear',
  'outstanding',
  'clear',
] as const;
export type Severity = (typeof severities)[number];

/** The heaviest weight at which a finding of a row counts, or null. */
const heaviest = (row: Extract<Row, { problems: null }>): Weight | null =>
  row.findings.find(({ waived }) => waived === null)?.weight ?? null;

/** What is worst about a row: a file that cannot be judged, a finding, a hold point, a step. */
export const severityOf = (row: Row): Severity => {
  if (!isJudged(row)) return 'cannot-be-judged';
  const weight = heaviest(row);
  if (weight !== null) return weight;
  if (row.holdPoints.some(({ clear }) => !clear)) return 'not-clear';
  return row.steps.length > 0 ? 'outstanding' : 'clear';
};

/** Where a row stands among others, in numbers; the smaller come first, column by column. */
export const orderOf = (row: Row): readonly [severity: number, ending: number, daysOpen: number] => [
  severities.indexOf(severityOf(row)),
  isJudged(row) && row.ends.some(({ ended, soon }) => ended || soon) ? 0 : 1,
  isJudged(row) ? -row.daysOpen : 0,
];
