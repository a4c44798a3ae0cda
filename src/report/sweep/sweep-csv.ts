import {
  type Change,
  type GoneRow,
  isJudged,
  type JudgedRow,
  type UnjudgedRow,
} from '../../core/sweep/row.ts';
import { severityOf } from '../../core/sweep/row-order.ts';
import { csvLines } from '../csv-cells.ts';
import { isoText } from '../times.ts';
import { counting, findingText, notClear } from '../words/sweep-words.ts';
import type { SweepRenderer } from './rendering.ts';

const { head, line } = csvLines([
  ...['file', 'job', 'vehicle', 'title', 'status', 'worst', 'fails', 'opened', 'daysOpen', 'finding', 'says'],
  ...['findings', 'holdPointsNotClear', 'steps', 'now', 'nowTitle', 'minutes', 'for', 'waitsFor'],
  ...['ends', 'endsAt', 'ended', 'endsSoon', 'warnings', 'problem', 'line', 'column', 'change', 'changes'],
] as const);

const joined = (texts: readonly string[]): string => texts.join('; ');

const changes = (change: Change | null): string | null => change && joined(change.says);

// Each line is one object as it is written here: putting it together from parts takes five times as long.
const judgedLine = (row: JudgedRow): string => {
  const found = counting(row);
  const [worst] = found;
  // The rows have what ends first at the front; what ended long ago is no news where something is still to end.
  const end = row.ends.find(({ ended }) => !ended) ?? row.ends.at(-1);
  return line({
    file: row.file,
    job: row.job,
    vehicle: row.vehicle,
    title: row.title,
    status: row.status,
    worst: severityOf(row),
    fails: row.fails,
    opened: isoText(row.opened),
    daysOpen: row.daysOpen,
    finding: worst ? findingText(worst) : null,
    says: worst?.says ?? null,
    findings: found.length,
    holdPointsNotClear: joined(notClear(row)),
    steps: row.steps.length,
    now: row.now.kind,
    nowTitle: row.now.title,
    minutes: row.now.minutes,
    for: row.now.for,
    waitsFor: joined(row.waitsFor),
    ends: end ? `${end.kind} ${end.what}` : null,
    endsAt: end ? isoText(end.at) : null,
    ended: row.ends.some(({ ended }) => ended),
    endsSoon: row.ends.some(({ soon }) => soon),
    warnings: joined(row.warnings),
    change: row.change?.kind ?? null,
    changes: changes(row.change),
  });
};

const unjudgedLine = (row: UnjudgedRow): string => {
  const [problem] = row.problems;
  return line({
    file: row.file,
    worst: severityOf(row),
    says: joined(row.problems.map(({ message }) => message)),
    now: row.now.kind,
    nowTitle: row.now.title,
    minutes: row.now.minutes,
    for: row.now.for,
    problem: problem?.code ?? null,
    line: problem?.line ?? null,
    column: problem?.column ?? null,
    change: row.change?.kind ?? null,
    changes: changes(row.change),
  });
};

const goneLine = ({ file, job, vehicle, title, change }: GoneRow): string =>
  line({ file, job, vehicle, title, change: change.kind, changes: changes(change) });

/** A line a job with a head, by RFC 4180; the jobs that are gone last. */
export function* renderSweepCsv({ rows, gone }: Parameters<SweepRenderer>[0]): Generator<string> {
  yield head;
  for (const row of rows) yield isJudged(row) ? judgedLine(row) : unjudgedLine(row);
  for (const row of gone) yield goneLine(row);
}
