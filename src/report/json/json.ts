import type { Instant } from '../../core/job.ts';
import type { Comparison } from '../../core/loop/compare.ts';
import type { Now } from '../../core/now/now.ts';
import { type MayLeave, mayLeave } from '../../core/outlook/may-leave.ts';
import type { Compared, Worksheet } from '../../core/worksheet.ts';
import type { Problem } from '../../input/problem.ts';
import { clean, cleanJson } from '../clean.ts';
import { outputFormat } from '../output-format.ts';
import { isoText } from '../times.ts';
import { commandText } from '../words/command-words.ts';
import { mayLeaveText } from '../words/leave-words.ts';
import { nowReasons, nowTitle } from '../words/now-words.ts';
import { reasonText, warningText } from '../words/reason-words.ts';
import { findingJson } from './finding-json.ts';
import { rankingJson } from './ranking-json.ts';

/** One file's result: judged, or why it could not be. */
export type Result =
  | {
      readonly file: string;
      readonly sheet: Worksheet;
      readonly problems: null;
      /** Two snapshots that were asked for. */
      readonly compared: Compared | null;
    }
  | { readonly file: string; readonly sheet: null; readonly problems: readonly Problem[] };

const nowJson = (now: Now, file: string, zone: string) => ({
  kind: now.kind,
  id: now.id,
  title: nowTitle(now),
  because: nowReasons(now, zone),
  minutes: now.minutes,
  elapsed: now.elapsed,
  cautions: now.cautions,
  command: now.command && commandText(now.command, file),
  for: now.for,
});

const releaseJson = (leave: MayLeave, zone: string) => ({
  verdict: leave.verdict,
  says: mayLeaveText(leave, zone, Number.POSITIVE_INFINITY),
});

const comparisonJson = ({ readings, findings }: Comparison) => ({ readings, findings });

const sheetJson = (file: string, sheet: Worksheet, compared: Compared | null) => {
  const { job, packs, findings, ranking, steps, now, worthTaking, dangers } = sheet;
  const { beforeAfter, holdPoints, warnings } = sheet;
  return {
    file,
    job: job.id,
    title: job.title,
    vehicle: job.vehicle.name,
    status: job.status,
    packs,
    findings: findings.map(findingJson),
    ...rankingJson(ranking),
    steps: steps.map((step) => ({
      id: step.id,
      title: step.title,
      state: step.state,
      waitsFor: step.waitsFor,
      because: step.because.map((reason) => reasonText(reason, job.zone)).join('; '),
      minutes: step.minutes,
      elapsed: step.elapsed,
      due: step.due === null ? null : isoText(step.due),
      needs: step.needs,
      cautions: step.cautions,
    })),
    release: releaseJson(mayLeave(sheet), job.zone),
    now: nowJson(now, file, job.zone),
    instead: now.instead.map((command) => commandText(command, file)),
    worthTaking,
    dangers: dangers.map(({ id, forbids, acknowledged, cautions }) => ({
      id,
      forbids,
      acknowledged,
      cautions,
    })),
    beforeAfter: beforeAfter && comparisonJson(beforeAfter),
    compared: compared && {
      before: compared.before.id,
      after: compared.after.id,
      ...comparisonJson(compared.comparison),
    },
    holdPoints: holdPoints.map(({ id, title, clear, holds, reasons }) => ({
      id,
      title,
      clear,
      holds,
      reasons: reasons.map((reason) => reasonText(reason, job.zone)),
    })),
    warnings: warnings.map((warning) => warningText(warning, job.zone)),
  };
};

const problemJson = ({ code, message, line, column, hint, file }: Problem) => ({
  code,
  message: clean(message),
  line,
  column,
  hint: hint === null ? null : clean(hint),
  ...(file === null ? {} : { file }),
});

const resultJson = (result: Result) =>
  result.sheet
    ? sheetJson(result.file, result.sheet, result.compared)
    : { file: result.file, job: null, problems: (result.problems ?? []).map(problemJson) };

/** The whole call in one JSON value. */
export const renderJson = (results: readonly Result[], asOf: Instant, version: string): string => {
  const tool = { name: 'cornerwise', version };
  const jobs = results.map(resultJson);
  return `${cleanJson(JSON.stringify({ format: outputFormat, tool, asOf: isoText(asOf), jobs }, null, 2))}\n`;
};

/** One job a line, with the format in place of the envelope. */
export const renderNdjson = (results: readonly Result[]): string =>
  results
    .map((result) => `${cleanJson(JSON.stringify({ format: outputFormat, ...resultJson(result) }))}\n`)
    .join('');
