import { checkContext } from '../checks/check-context.ts';
import { likeConditions } from '../checks/over-time/like-conditions.ts';
import type { Finding } from '../finding.ts';
import type { Instant, Job } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Channel } from '../pack.ts';
import { disturbs, isWork } from '../steps/staleness.ts';
import {
  type ComparedReading,
  type Comparison,
  compareFindings,
  compareReading,
  telling,
  verdictIn,
} from './compare.ts';

/** The times of the first and the last work that disturbs something; of the first of all where none does. */
interface Work {
  readonly first: Instant;
  readonly last: Instant;
  readonly own: boolean;
}

const workOn = (
  keys: readonly string[],
  { log }: Job,
  channels: ReadonlyMap<string, Channel>,
): Work | null => {
  const works = log.filter((entry) => isWork(entry) && entry.what !== null);
  const own = works.filter(({ what }) =>
    keys.some((key) => {
      const channel = channels.get(parseKey(key).base);
      return channel !== undefined && disturbs(what ?? '', key, channel);
    }),
  );
  const [first] = own.length > 0 ? own : works;
  const last = own.at(-1) ?? (keys.length > 0 ? works[0] : works.at(-1));
  return first && last ? { first: first.stamp.at, last: last.stamp.at, own: own.length > 0 } : null;
};

/**
 * The newest readings of before the first work against the newest of after the last one, each channel in each state,
 * and in like conditions; with what its checks made of either. Null where nothing was worked on.
 */
export const beforeAfterOf = (
  job: Job,
  findings: readonly Finding[],
  channels: ReadonlyMap<string, Channel>,
): Comparison | null => {
  if (!job.log.some((entry) => isWork(entry) && entry.what !== null)) return null;
  const context = checkContext(job, channels, true);
  const seen = new Set<string>();
  const readings = job.snapshots.flatMap(({ state, readings: own }) =>
    [...own.keys()].flatMap((key): ComparedReading[] => {
      const id = `${key} ${state}`;
      const work = workOn([key], job, channels);
      if (seen.has(id) || work === null) return [];
      seen.add(id);
      const having = job.snapshots.filter((one) => one.state === state && one.readings.has(key));
      const before = having.findLast(({ stamp }) => stamp.at <= work.first);
      const after = having.findLast(
        (one) => one.stamp.at > work.last && (!before || likeConditions(before, one, telling)),
      );
      const row = compareReading(key, state, [before, after], findings, context);
      // What no work has touched need not be read again, unless it was out.
      const isIdle =
        row !== null && row.after === null && !work.own && verdictIn(before?.id, key, findings) !== 'out';
      return row === null || isIdle ? [] : [row];
    }),
  );
  const at = new Map(job.snapshots.map((one) => [one.id, one]));
  const timeOf = ({ snapshot }: Finding): Instant => at.get(snapshot ?? '')?.stamp.at ?? 0;
  return {
    readings,
    findings: compareFindings(
      findings,
      (own) => {
        const work = workOn(own[0]?.channels ?? [], job, channels);
        if (work === null) return [null, null];
        const judged = own.filter(({ verdict }) => verdict !== 'not-taken');
        const before = judged.findLast((one) => timeOf(one) <= work.first) ?? null;
        const was = before && at.get(before.snapshot ?? '');
        const after = judged.findLast((one) => {
          const is = at.get(one.snapshot ?? '');
          return timeOf(one) > work.last && (!was || !is || likeConditions(was, is, telling));
        });
        const isIdle = !after && !work.own && before?.verdict !== 'out';
        return isIdle ? [null, null] : [before, after ?? null];
      },
      (check) => {
        const work = workOn([], job, channels);
        return findings.some((one) => one.check === check && work !== null && timeOf(one) > work.last);
      },
    ),
  };
};
