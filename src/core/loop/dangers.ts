import { type Act, acts } from '../acts.ts';
import type { Finding } from '../finding.ts';
import type { Instant, Job, LogEntry, Snapshot } from '../job.ts';
import type { DangerTerms, StatedDanger } from '../pack.ts';
import { isWork } from '../steps/staleness.ts';

/** Something that can hurt somebody or break something, with what it forbids. */
export interface OpenDanger {
  /** `pack/check:subject`, `on-stops`, `shared-with-brakes` */
  readonly id: string;
  /** The check's title; null for what the job states. */
  readonly title: string | null;
  readonly subject: string | null;
  /** The finding that shows it; null for what the job states. */
  readonly finding: string | null;
  readonly forbids: readonly Act[];
  readonly cautions: readonly string[];
  /** Since when it is known. */
  readonly since: Instant;
  /** Whether `noted stop` was logged since then. */
  readonly acknowledged: boolean;
}

const usualTerms: Readonly<Record<StatedDanger, DangerTerms>> = {
  'on-stops': { forbids: ['drive'], afterRetake: false, cautions: [] },
  'shared-with-brakes': { forbids: acts, afterRetake: false, cautions: [] },
};

/** Whether an entry says that the dangers known so far are heeded. */
export const isAcknowledgement = ({ did, what, note }: LogEntry): boolean =>
  did === 'noted' && (what === 'stop' || note?.trim().toLowerCase() === 'stop');

/** Snapshots that read a channel after the last work on the vehicle, the oldest first. */
const readingsOf = (channel: string, { snapshots, log }: Job): readonly Snapshot[] => {
  const worked = log.findLast(isWork)?.stamp.at ?? Number.NEGATIVE_INFINITY;
  return snapshots.filter(({ stamp, readings }) => stamp.at >= worked && readings.has(channel));
};

const isBeyond = (snapshot: Snapshot, channel: string, { limits }: Finding): boolean => {
  const reading = snapshot.readings.get(channel);
  if (reading?.kind !== 'values') return false;
  const low = limits?.low ?? Number.NEGATIVE_INFINITY;
  const high = limits?.high ?? Number.POSITIVE_INFINITY;
  return reading.values.some(({ value }) => value > high || value < low);
};

/** Snapshots in a row, up to the one of the finding, that were beyond its limit; that one in any case. */
const runOf = (finding: Finding, job: Job): readonly Snapshot[] => {
  const [channel = ''] = finding.channels;
  const upTo = readingsOf(channel, job);
  const last = upTo.findIndex(({ id }) => id === finding.snapshot);
  const good = upTo.slice(0, Math.max(last, 0)).findLastIndex((one) => !isBeyond(one, channel, finding));
  return last < 0
    ? job.snapshots.filter(({ id }) => id === finding.snapshot)
    : upTo.slice(good + 1, last + 1);
};

const ofFindings = (
  job: Job,
  findings: readonly Finding[],
  dangers: ReadonlyMap<string, DangerTerms>,
): Omit<OpenDanger, 'acknowledged'>[] =>
  findings.flatMap((finding) => {
    const terms = dangers.get(finding.check);
    if (!terms || finding.verdict !== 'out' || !finding.current) return [];
    const run = runOf(finding, job);
    if (terms.afterRetake && run.length < 2) return [];
    const { forbids, cautions } = terms;
    return [
      {
        id: `${finding.check}:${finding.subject}`,
        title: finding.checkTitle,
        subject: finding.subject,
        finding: finding.id,
        forbids,
        cautions,
        since: run[0]?.stamp.at ?? job.opened,
      },
    ];
  });

/** Since when the newest snapshots that state it say that the body stands on its stops; null where they do not. */
const onStopsSince = ({ snapshots }: Job): Instant | null => {
  let since: Instant | null = null;
  for (const { stamp, conditions } of snapshots) {
    const stated = conditions.words['on-stops'];
    if (stated === 'no') since = null;
    else if (stated === 'yes') since ??= stamp.at;
  }
  return since;
};

const stated = (
  id: StatedDanger,
  since: Instant,
  dangers: ReadonlyMap<string, DangerTerms>,
): Omit<OpenDanger, 'acknowledged'> => {
  const { forbids, cautions } = dangers.get(id) ?? usualTerms[id];
  return { id, title: null, subject: null, finding: null, forbids, cautions, since };
};

/**
 * The dangers of a job: what a danger check finds, the body on its stops, air shared with the brakes. They last until a
 * newer reading or work ends them; that they are acknowledged only ends the stop.
 */
export const dangersOf = (
  job: Job,
  findings: readonly Finding[],
  dangers: ReadonlyMap<string, DangerTerms>,
): OpenDanger[] => {
  const stops = onStopsSince(job);
  const open = [
    ...(job.vehicle.air.sharedWithBrakes ? [stated('shared-with-brakes', job.opened, dangers)] : []),
    ...ofFindings(job, findings, dangers),
    ...(stops === null ? [] : [stated('on-stops', stops, dangers)]),
  ];
  if (open.length === 0) return [];
  const heeded = job.log.findLast(isAcknowledgement)?.stamp.at ?? Number.NEGATIVE_INFINITY;
  return open.map((danger) => ({ ...danger, acknowledged: heeded >= danger.since }));
};

/** Every act that some dangers forbid. */
export const forbiddenActs = (dangers: readonly OpenDanger[]): ReadonlySet<Act> =>
  new Set(dangers.flatMap(({ forbids }) => forbids));
