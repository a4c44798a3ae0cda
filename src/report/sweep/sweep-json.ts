import {
  type GoneRow,
  isJudged,
  type JudgedRow,
  type Row,
  type RowNow,
  type RowProblem,
} from '../../core/sweep/row.ts';
import { cleanJson } from '../clean.ts';
import { outputFormat } from '../output-format.ts';
import { isoText } from '../times.ts';
import { commandText } from '../words/command-words.ts';
import type { SweepRenderer } from './rendering.ts';

const nowJson = ({ command, ...now }: RowNow, file: string) => ({
  ...now,
  command: command && commandText(command, file),
});

const judgedJson = (row: JudgedRow, asOf: string) => ({
  file: row.file,
  job: row.job,
  title: row.title,
  vehicle: row.vehicle,
  status: row.status,
  asOf,
  opened: isoText(row.opened),
  zone: row.zone,
  daysOpen: row.daysOpen,
  level: row.findings.find(({ waived }) => waived === null)?.weight ?? null,
  fails: row.fails,
  findings: row.findings,
  holdPoints: row.holdPoints,
  steps: row.steps,
  now: nowJson(row.now, row.file),
  waitsFor: row.waitsFor,
  ends: row.ends.map(({ kind, what, at, until, reason, ended, soon }) => ({
    kind,
    what,
    at: isoText(at),
    until,
    reason,
    ended,
    soon,
  })),
  warnings: row.warnings,
  packs: row.packs,
  change: row.change,
});

// Messages stay as they are, since the next night's are compared with them; `cleanJson` makes them safe to look at.
const problemJson = ({ code, message, line, column, hint, file }: RowProblem) => ({
  code,
  message,
  line,
  column,
  hint,
  ...(file === undefined ? {} : { file }),
});

/** The rows as JSON on one line each. */
function* rowLines(rows: Iterable<Row>): Generator<string> {
  // All rows of a sweep are judged as of one instant, and telling times is what costs most here.
  let at = Number.NaN;
  let asOf = '';
  for (const row of rows) {
    if (!isJudged(row)) {
      const { file, problems, change, last } = row;
      const now = nowJson(row.now, file);
      yield cleanJson(
        JSON.stringify({ file, job: null, problems: problems.map(problemJson), now, change, last }),
      );
      continue;
    }
    if (row.asOf !== at) {
      at = row.asOf;
      asOf = isoText(at);
    }
    yield cleanJson(JSON.stringify(judgedJson(row, asOf)));
  }
}

const goneLine = ({ file, job, vehicle, title, change }: GoneRow): string =>
  cleanJson(JSON.stringify({ file, job, vehicle, title, change }));

/** A line of its own: a member with the format in front. */
const alone = (line: string): string => `{"format":${outputFormat},${line.slice(1)}\n`;

/** One row a line, then those that are gone, with the format in place of the envelope. */
export function* renderSweepNdjson({ rows, gone }: Parameters<SweepRenderer>[0]): Generator<string> {
  for (const line of rowLines(rows)) yield alone(line);
  for (const row of gone) yield alone(goneLine(row));
}

/** A list in JSON, an item a line, so that it can be written while the rows come. */
function* listed(lines: Iterable<string>): Generator<string> {
  let before = '\n';
  for (const line of lines) {
    yield `${before}    ${line}`;
    before = ',\n';
  }
  yield before === '\n' ? ']' : '\n  ]';
}

/** The whole sweep in one JSON value. */
export function* renderSweepJson({
  rows,
  gone,
  totals,
  notices,
  leftOut,
  asOf,
  stopped,
  version,
}: Parameters<SweepRenderer>[0]): Generator<string> {
  const tool = { name: 'cornerwise', version };
  yield `{\n  "format": ${outputFormat},\n  "tool": ${JSON.stringify(tool)},\n  "asOf": ${JSON.stringify(isoText(asOf))},\n  "rows": [`;
  yield* listed(rowLines(rows));
  yield ',\n  "gone": [';
  yield* listed(gone.map(goneLine));
  yield `,\n  "notices": ${JSON.stringify(notices)},\n  "totals": ${JSON.stringify(totals)},\n  "leftOut": ${JSON.stringify(leftOut)},\n`;
  yield `  "stopped": ${JSON.stringify(stopped)}\n}\n`;
}
