import { assessBriefly } from '../../core/assess.ts';
import type { RowProblem, Standing } from '../../core/sweep/row.ts';
import { type Span, steadySpan } from '../../core/sweep/steady.ts';
import type { JobSource } from '../../input/job/job-context.ts';
import type { Problem } from '../../input/problem.ts';
import { decode } from '../../input/yaml/decode.ts';
import { clean } from '../../report/clean.ts';
import { standingOf } from '../../report/sweep/standing.ts';
import type { AsOf } from '../as-of.ts';
import { assessAt } from '../judge-file.ts';
import { readJobText } from '../read-job-text.ts';
import { withShownPaths } from '../shown-path.ts';
import { looksLikeJob } from './find-jobs.ts';
import type { SweepInputs } from './sweep-inputs.ts';

/** The result of judging one file of a sweep. */
export type Judged =
  | {
      readonly kind: 'job';
      readonly asOf: number;
      readonly standing: Standing;
      readonly span: Span;
      /** Whether the same bytes in another file would be judged alike. */
      readonly byText: boolean;
    }
  /** A closed job that was not asked for. */
  | { readonly kind: 'closed'; readonly zone: string }
  | { readonly kind: 'not-a-job' }
  | { readonly kind: 'problems'; readonly problems: readonly RowProblem[] };

export interface JudgeOneOptions {
  readonly asOf: AsOf;
  /** Whether to judge closed jobs. */
  readonly closed: boolean;
  /** Whether the user named the file, so that it is judged whatever it holds. */
  readonly named: boolean;
  readonly cwd: string;
  /** The file that the bytes are of. */
  readonly source: JobSource;
}

/** Turns problems into those of a row. */
export const rowProblems = (problems: readonly Problem[], cwd: string): RowProblem[] =>
  withShownPaths(problems, cwd).map(({ code, message, line, column, hint, file }) => ({
    code,
    message: clean(message),
    line,
    column,
    hint: hint === null ? null : clean(hint),
    ...(file === null ? {} : { file }),
  }));

const failed = (problems: readonly Problem[], cwd: string): Judged => ({
  kind: 'problems',
  problems: rowProblems(problems, cwd),
});

/**
 * Judges the bytes of one job file as `check` does, and reduces the worksheet to what a row of a sweep tells.
 *
 * @throws only where the program itself is at fault
 */
export const judgeOne = async (
  bytes: Uint8Array,
  { found, library, failOn }: SweepInputs,
  { asOf, closed, named, cwd, source }: JudgeOneOptions,
): Promise<Judged> => {
  const decoded = decode(bytes);
  if ('problem' in decoded) return failed([decoded.problem], cwd);
  const { text } = decoded;
  if (!named && !looksLikeJob(text)) return { kind: 'not-a-job' };
  if (found.problems.length > 0) return failed(found.problems, cwd);
  const read = await readJobText(text, found, library, source);
  if (read.job === null) return failed(read.problems, cwd);
  const { job } = read;
  if (job.status === 'closed' && !closed) return { kind: 'closed', zone: job.zone };
  const sheet = assessAt(read, asOf, assessBriefly);
  if ('code' in sheet) return failed([sheet], cwd);
  const minutes = sheet.steps.reduce((sum, step) => sum + step.minutes, 0);
  return {
    kind: 'job',
    asOf: sheet.asOf,
    standing: standingOf(sheet, failOn),
    byText: !read.restsOnFile,
    span: steadySpan(job, sheet.asOf, minutes),
  };
};
