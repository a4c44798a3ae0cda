import { assess } from '../core/assess.ts';
import type { Instant, Job } from '../core/job.ts';
import { compareSnapshots } from '../core/loop/compare.ts';
import type { PreparedPacks } from '../core/prepare/prepared-packs.ts';
import type { BriefWorksheet, Compared, Worksheet } from '../core/worksheet.ts';
import type { Shop } from '../input/job/shop.ts';
import { type Problem, wholeFile } from '../input/problem.ts';
import { quoted } from '../input/quoted.ts';
import { didYouMean } from '../input/suggest.ts';
import type { AsOf } from './as-of.ts';
import { guarded } from './guarded.ts';
import type { Io } from './io.ts';
import type { Library } from './library.ts';
import { openJobFile } from './open-job.ts';
import type { ReadText } from './read-job-text.ts';
import { withShownPaths } from './shown-path.ts';

/** What became of one file: a worksheet, or the problems that stand in its way. */
export type Judged =
  | {
      readonly file: string;
      readonly sheet: Worksheet;
      readonly shop: Shop | null;
      readonly problems: null;
      readonly compared: Compared | null;
    }
  | {
      readonly file: string;
      readonly sheet: null;
      readonly shop: Shop | null;
      readonly problems: readonly Problem[];
    };

export interface JudgeOptions {
  /** The instant to judge at, which may hang on the job's zone. */
  readonly asOf: AsOf;
  /** Rule folders from the command line, which come first. */
  readonly rules: readonly string[];
  /** Ids of two snapshots to put side by side. */
  readonly compare?: readonly [string, string] | undefined;
}

/**
 * The sheet of a job that was read, or why there can be none.
 *
 * @param judge `assess` or `assessBriefly`
 */
export const assessAt = <Sheet extends BriefWorksheet>(
  { job, prepared, warnings }: ReadText,
  asOf: AsOf,
  judge: (job: Job, prepared: PreparedPacks, asOf: Instant) => Sheet,
): Sheet | Problem => {
  if (job === null) throw new Error('a job with problems is not assessed');
  const at = asOf(job.zone);
  if (at === null) {
    const message = `the clocks in ${job.zone} skip the time given by --as-of`;
    return wholeFile('skipped-time', message, 'give it with an offset, such as +00:00');
  }
  const sheet = judge(job, prepared, at);
  if (sheet.findings.length === 0) {
    const message = 'no check of this job concerns this vehicle, so nothing can be judged';
    return wholeFile('no-checks', message, 'check layout and packs');
  }
  return { ...sheet, warnings: [...warnings, ...sheet.warnings] };
};

/** Two snapshots of a judged job side by side, or why that cannot be. */
const comparedIn = (
  [before, after]: readonly [string, string],
  { job, findings }: Worksheet,
  { channelById }: PreparedPacks,
): Compared | Problem => {
  const ids = job.snapshots.map(({ id }) => id);
  const named = (id: string) => job.snapshots.findLast((one) => one.id === id);
  const [one, other] = [named(before), named(after)];
  if (one && other)
    return {
      before: one,
      after: other,
      comparison: compareSnapshots(job, findings, channelById, one, other),
    };
  const unknown = one ? after : before;
  const usual = ids.length === 0 ? 'this job has none' : `its snapshots are ${ids.join(', ')}`;
  return wholeFile(
    'unknown-name',
    `no snapshot is called ${quoted(unknown)}`,
    didYouMean(unknown, ids, usual),
  );
};

/**
 * Judges one job file, whatever stands in it: its packs are found, its text is read, and it is assessed. Nothing in
 * a file makes this throw; a fault of the program is a problem of the file.
 *
 * @param file a path, or `-` for standard input
 */
export const judgeFile = async (
  file: string,
  options: JudgeOptions,
  io: Io,
  libraries: (folders: readonly string[]) => Library,
): Promise<Judged> => {
  const fail = (problems: readonly Problem[], shop: Shop | null = null): Judged => ({
    file,
    sheet: null,
    shop,
    problems: withShownPaths(problems, io.cwd),
  });
  return guarded<Judged>(async () => {
    const opened = await openJobFile(file, options.rules, io, libraries, options.asOf);
    if ('problems' in opened) return fail(opened.problems, opened.shop);
    const { read, found } = opened;
    const { shop } = found;
    if (read.problems.length > 0) return fail(read.problems, shop);
    const sheet = assessAt(read, options.asOf, assess);
    if ('code' in sheet) return fail([sheet], shop);
    const compared = options.compare ? comparedIn(options.compare, sheet, read.prepared) : null;
    return compared && 'code' in compared
      ? fail([compared], shop)
      : { file, shop, problems: null, sheet, compared };
  }, fail);
};
