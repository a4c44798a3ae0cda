import { concernsJob } from './checks/concerns.ts';
import { covers } from './checks/waivers.ts';
import type { Finding } from './finding.ts';
import type { Instant, Job } from './job.ts';
import type { Channel, Pack, Scene } from './pack.ts';
import { outstanding } from './steps/outstanding.ts';
import { openWaits } from './steps/waiting.ts';
import { rankSuspects } from './suspects/rank.ts';
import type { Warning, Worksheet, WorksheetHoldPoint, WorksheetStep } from './worksheet.ts';

/** The job as it stood at an instant: what lies after it is left out, and said; waivers are ended or not. */
const asItStood = (job: Job, asOf: Instant): { job: Job; warnings: Warning[] } => {
  const byTime = <T extends { readonly stamp: { readonly at: Instant } }>(list: readonly T[]): T[] =>
    [...list].sort((a, b) => a.stamp.at - b.stamp.at);
  const late = job.snapshots.filter(({ stamp }) => stamp.at > asOf);
  const lateEntries = job.log.filter(({ stamp }) => stamp.at > asOf);
  const waivers = job.waivers.map((waiver) => ({ ...waiver, ended: waiver.ends <= asOf }));
  return {
    job: {
      ...job,
      snapshots: byTime(job.snapshots.filter(({ stamp }) => stamp.at <= asOf)),
      log: byTime(job.log.filter(({ stamp }) => stamp.at <= asOf)),
      costs: { ...job.costs, authorised: job.costs.authorised.filter(({ at }) => at <= asOf) },
      waivers,
    },
    warnings: [
      ...late.map(({ id, stamp }): Warning => ({ kind: 'snapshot-in-future', snapshot: id, at: stamp.at })),
      ...lateEntries.map((entry): Warning => ({ kind: 'log-in-future', entry })),
      ...job.costs.authorised
        .filter(({ at }) => at > asOf)
        .map(({ at, amount }): Warning => ({ kind: 'authorisation-in-future', amount, at })),
      ...waivers
        .filter(({ ended }) => ended)
        .map(({ finding, until }): Warning => ({ kind: 'waiver-ended', finding, until })),
      ...waivers
        .filter(({ isVoid }) => isVoid)
        .map(({ finding }): Warning => ({ kind: 'waiver-void', finding })),
    ],
  };
};

/** Every channel of the packs by its base name; packs that share one agree on it, or were refused. */
export const channelsOf = (packs: readonly Pack[]): Map<string, Channel> =>
  new Map(packs.flatMap(({ channels }) => channels.map((channel) => [channel.id, channel])));

/** What the job waits for that is no step: steps say so themselves. */
const waits = (job: Job, steps: readonly WorksheetStep[]): Warning[] =>
  openWaits(job)
    .filter(({ what }) => !steps.some(({ id }) => id === what || id.endsWith(`/${what}`)))
    .map(({ what, waitsFor }) => ({ kind: 'waits', what: what ?? 'the job', waitsFor }));

const closedTooSoon = (job: Job, holdPoints: readonly WorksheetHoldPoint[]): Warning[] =>
  job.status === 'closed' && holdPoints.some(({ id, clear }) => id === 'release' && !clear)
    ? [{ kind: 'closed-not-released' }]
    : [];

const idleWaivers = (job: Job, findings: readonly Finding[]): Warning[] =>
  job.waivers
    .filter((waiver) => !findings.some(({ check, subject }) => covers(waiver, check, subject)))
    .map(({ finding }) => ({ kind: 'waiver-matches-nothing', finding }));

/**
 * The whole judgement: what the packs say of a job at an instant. Pure; the same inputs give the same worksheet.
 *
 * @param job a job as read, with values in the channels' units
 * @param packs resolved packs, in the job's order
 * @param asOf the instant that counts as now
 */
export const assess = (job: Job, packs: readonly Pack[], asOf: Instant): Worksheet => {
  const stood = asItStood(job, asOf);
  const scene: Scene = { job: stood.job, channels: channelsOf(packs) };
  const checks = packs.flatMap((pack) => pack.checks).filter((check) => concernsJob(check, stood.job));
  const judge = (which: Scene, late: boolean): Finding[] =>
    checks
      .filter(({ rule }) => (rule.afterSteps ?? false) === late)
      .flatMap((check) => check.rule.judge(check, which));

  const early = judge(scene, false);
  // Before the checks that ask for steps, which say nothing of the vehicle: a hold point asks for the suspects.
  const ranking = rankSuspects(stood.job, packs, early);
  const ground = { job: stood.job, asOf, findings: early, ranking };
  const { steps, holdPoints } = outstanding(packs, ground, scene.channels);
  const findings = [...early, ...judge({ ...scene, steps }, true)];

  return {
    job: stood.job,
    asOf,
    packs: packs.map(({ id, version, sha256 }) => ({ id, version, sha256 })),
    findings,
    steps,
    holdPoints,
    ranking,
    warnings: [
      ...stood.warnings,
      ...idleWaivers(stood.job, findings),
      ...waits(stood.job, steps),
      ...closedTooSoon(stood.job, holdPoints),
    ],
  };
};
