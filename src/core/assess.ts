import { type CheckContext, checkContext, type EntryAgainst } from './checks/check-context.ts';
import type { CheckPlan } from './checks/check-plan.ts';
import { concernsJob } from './checks/concerns.ts';
import { kindOf } from './checks/kinds/index.ts';
import { covers } from './checks/waivers.ts';
import type { Finding } from './finding.ts';
import type { Instant, Job, LogEntry } from './job.ts';
import { beforeAfterOf } from './loop/before-after.ts';
import { dangersOf, forbiddenActs } from './loop/dangers.ts';
import { decisionsOf } from './loop/decisions.ts';
import { faultsOf } from './loop/faults.ts';
import { entriesHeld, isHeld, jobBefore, pointAgainst } from './loop/held-entries.ts';
import { retestsOf } from './loop/retests.ts';
import { troublesOf } from './loop/troubles.ts';
import { nowOf } from './now/now-of.ts';
import { type PreparedPacks, preparedFor } from './prepare/prepared-packs.ts';
import { outstanding } from './steps/outstanding.ts';
import { worthTaking } from './steps/readings-wanted.ts';
import { openWaits } from './steps/waiting.ts';
import { diagnose } from './suspects/diagnosis.ts';
import { rankSuspects } from './suspects/rank.ts';
import { weighSuspects } from './suspects/weigh.ts';
import type { BriefWorksheet, Worksheet } from './worksheet.ts';
import type { Warning, WorksheetHoldPoint, WorksheetStep } from './worksheet-parts.ts';

interface Timed {
  readonly stamp: { readonly at: Instant };
}

/** The items up to an instant, the oldest first; items of the same time stay in the file's order. */
const upTo = <T extends Timed>(list: readonly T[], asOf: Instant): readonly T[] => {
  let before = Number.NEGATIVE_INFINITY;
  for (const { stamp } of list) {
    // Most files are in order and have nothing in the future, so the list is returned as it is.
    if (stamp.at < before || stamp.at > asOf)
      return list.filter(({ stamp: { at } }) => at <= asOf).sort((a, b) => a.stamp.at - b.stamp.at);
    before = stamp.at;
  }
  return list;
};

/** The job as it stood at an instant: later entries are left out, and each waiver is marked as ended or not. */
const asItStood = (job: Job, asOf: Instant): Job => ({
  ...job,
  snapshots: upTo(job.snapshots, asOf),
  log: upTo(job.log, asOf),
  costs: { ...job.costs, authorised: job.costs.authorised.filter(({ at }) => at <= asOf) },
  waivers: job.waivers.map((waiver) => ({ ...waiver, ended: waiver.ends <= asOf })),
});

/** Warnings about entries after the instant, and about waivers that have ended or are void. */
const ofTheFuture = ({ snapshots, log, costs }: Job, { waivers }: Job, asOf: Instant): Warning[] => {
  const warnings: Warning[] = [];
  for (const { id, stamp } of snapshots)
    if (stamp.at > asOf) warnings.push({ kind: 'snapshot-in-future', snapshot: id, at: stamp.at });
  for (const entry of log) if (entry.stamp.at > asOf) warnings.push({ kind: 'log-in-future', entry });
  for (const { at, amount } of costs.authorised)
    if (at > asOf) warnings.push({ kind: 'authorisation-in-future', amount, at });
  for (const { ended, finding, until } of waivers)
    if (ended) warnings.push({ kind: 'waiver-ended', finding, until });
  for (const { isVoid, finding } of waivers) if (isVoid) warnings.push({ kind: 'waiver-void', finding });
  return warnings;
};

/** Warnings about what the job waits for, except steps, which report it themselves. */
const waits = (job: Job, steps: readonly WorksheetStep[]): Warning[] =>
  openWaits(job)
    .filter(({ what }) => !steps.some(({ id }) => id === what || id.endsWith(`/${what}`)))
    .map(({ what, waitsFor }) => ({ kind: 'waits', what: what ?? 'the job', waitsFor }));

const closedTooSoon = (job: Job, holdPoints: readonly WorksheetHoldPoint[]): Warning[] =>
  job.status === 'closed' && holdPoints.some(({ id, clear }) => id === 'release' && !clear)
    ? [{ kind: 'closed-not-released' }]
    : [];

const written = ({ log }: Job): Warning[] =>
  log.flatMap((entry): Warning[] =>
    entry.despite === null ? [] : [{ kind: 'despite', entry, despite: entry.despite }],
  );

const idleWaivers = (job: Job, findings: readonly Finding[]): Warning[] =>
  job.waivers
    .filter((waiver) => !findings.some(({ check, subject }) => covers(waiver, check, subject)))
    .map(({ finding }) => ({ kind: 'waiver-matches-nothing', finding }));

const judgeChecks = (plans: readonly CheckPlan[], context: CheckContext): Finding[] => {
  const findings: Finding[] = [];
  for (const plan of plans) {
    const { check } = plan;
    if (!concernsJob(check, context.job)) continue;
    for (const finding of kindOf(check).judge(plan, check.parameters, context)) findings.push(finding);
  }
  return findings;
};

/** Entries that their hold points did not allow, where a check asks for them. */
const entriesAgainst = (job: Job, prepared: PreparedPacks): readonly EntryAgainst[] => {
  if (!prepared.checks.some(({ kind }) => kind === 'kept-hold-points')) return [];
  return entriesHeld(job).flatMap((entry): EntryAgainst[] => {
    const before = jobBefore(job, entry);
    if (!isHeld(entry, before)) return [];
    const point = pointAgainst(entry, judgeJob(before, prepared, entry.stamp.at, false, []).holdPoints);
    return point ? [{ entry, point: point.title }] : [];
  });
};

const judgeJob = (
  job: Job,
  prepared: PreparedPacks,
  asOf: Instant,
  superseded: boolean,
  known: readonly EntryAgainst[] | null = null,
): BriefWorksheet => {
  const stood = asItStood(job, asOf);
  const { early, late, suspects: model } = preparedFor(prepared, stood.vehicle);
  const against = known ?? entriesAgainst(stood, prepared);
  const context = { ...checkContext(stood, prepared.channelById, superseded), against };
  const before = judgeChecks(early, context);
  // A hold point asks for the suspects, so they are weighed before the checks that ask for steps, which say nothing of
  // the vehicle.
  const decisions = decisionsOf(stood);
  const dangers = dangersOf(stood, before, prepared.dangers);
  const forbidden = forbiddenActs(dangers);
  const weighed = weighSuspects(stood, model, before, { tests: decisions.skipped, acts: forbidden });
  const diagnosis = weighed && diagnose(weighed);
  const faults = faultsOf(stood, diagnosis, decisions, prepared);
  const retests = retestsOf(stood, before, model, prepared.channelById, prepared.components, diagnosis);
  const { steps, holdPoints, ground, open } = outstanding(prepared, {
    job: stood,
    asOf,
    findings: before,
    diagnosis,
    model,
    faults,
    retests,
    forbidden,
  });
  const findings = [...before, ...judgeChecks(late, { ...context, steps })];
  const now = nowOf({
    job: stood,
    asOf,
    prepared,
    findings,
    steps,
    holdPoints,
    diagnosis,
    model,
    decisions,
    dangers,
    forbidden,
    faults,
    retests,
    troubles: troublesOf(stood, findings, diagnosis, decisions, open, retests),
    facts: ground,
  });

  return {
    job: stood,
    asOf,
    packs: prepared.refs,
    findings,
    steps,
    holdPoints,
    diagnosis,
    dangers,
    faults,
    worthTaking: worthTaking(ground, prepared),
    now,
    warnings: [
      ...ofTheFuture(job, stood, asOf),
      ...idleWaivers(stood, findings),
      ...waits(stood, steps),
      ...closedTooSoon(stood, holdPoints),
      ...written(stood),
    ],
  };
};

/**
 * Judges a job at an instant, and works out all that its suspects come to. Pure; the same inputs give the same
 * worksheet.
 *
 * @param job a job as read, with values in the channels' units
 * @param prepared the job's packs, as `preparePacks` makes them
 * @param asOf the instant that counts as now
 */
export const assess = (job: Job, prepared: PreparedPacks, asOf: Instant): Worksheet => {
  const sheet = judgeJob(job, prepared, asOf, true);
  const { diagnosis, findings } = sheet;
  return {
    ...sheet,
    ranking: diagnosis && rankSuspects(diagnosis.weighed, diagnosis),
    beforeAfter: beforeAfterOf(sheet.job, findings, prepared.channelById),
  };
};

export interface BriefOptions {
  /**
   * True to keep findings that a newer one of the same check, subject and state supersedes. They count for nothing, so
   * they are left out unless this is set.
   */
  readonly superseded?: boolean;
}

/**
 * Judges a job as `assess` does, for whoever does not show its suspects: they are weighed but not ranked. Whoever wants
 * more of them asks `rankSuspects`. Everything else is the same.
 */
export const assessBriefly = (
  job: Job,
  prepared: PreparedPacks,
  asOf: Instant,
  { superseded = false }: BriefOptions = {},
): BriefWorksheet => judgeJob(job, prepared, asOf, superseded);

/**
 * The hold point that does not allow an entry which is about to be written, with the sheet as it then stood; null where
 * nothing holds it.
 */
export const heldBack = (
  job: Job,
  prepared: PreparedPacks,
  entry: LogEntry,
): { readonly point: WorksheetHoldPoint; readonly sheet: BriefWorksheet } | null => {
  const before = jobBefore(job, entry);
  if (!isHeld(entry, before)) return null;
  const sheet = judgeJob(before, prepared, entry.stamp.at, false);
  const point = pointAgainst(entry, sheet.holdPoints);
  return point && { point, sheet };
};
