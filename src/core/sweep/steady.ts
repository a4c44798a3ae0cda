import type { Instant, Job } from '../job.ts';

/** From an instant on, up to before another. */
export interface Span {
  readonly from: Instant;
  readonly until: Instant;
}

const minute = 60_000;

/**
 * How long the judgement of a job stays what it is at an instant, for anything in it that the clock decides: entries
 * that lie after the time judged, waivers that end, access that begins or ends.
 *
 * @param job the job as read, with what lies after the instant
 * @param workMinutes all minutes of its steps: access must be open for as long as those that need it take
 */
export const steadySpan = (job: Job, asOf: Instant, workMinutes: number): Span => {
  let from = Number.NEGATIVE_INFINITY;
  let until = Number.POSITIVE_INFINITY;
  /** The judgement may be another one from `at` on. */
  const turn = (at: Instant): void => {
    if (at <= asOf) from = Math.max(from, at);
    else until = Math.min(until, at);
  };
  for (const { stamp } of job.snapshots) turn(stamp.at);
  for (const { stamp } of job.log) turn(stamp.at);
  for (const { at } of job.costs.authorised) turn(at);
  for (const { ends } of job.waivers) turn(ends);
  for (const line of job.costs.lines) {
    if (line.from !== null) turn(line.from);
    if (line.ends === null) continue;
    const closing = line.ends - workMinutes * minute;
    // Towards its end it hangs on which steps are left; until it is over every minute may tell.
    if (asOf > closing && asOf <= line.ends) {
      from = Math.max(from, asOf);
      until = Math.min(until, asOf + 1);
    }
    // Up to `closing` it is open for whatever may be left.
    turn(closing + 1);
    turn(line.ends + 1);
  }
  return { from, until };
};
