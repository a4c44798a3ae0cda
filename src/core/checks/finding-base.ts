import type { Finding } from '../finding.ts';
import type { Snapshot } from '../job.ts';
import type { Check } from '../pack.ts';
import type { Beyond, Verdict } from '../readings/verdict.ts';
import type { CheckContext } from './check-context.ts';
import { waiverFor } from './waivers.ts';

/** A finding's stable name; it names a snapshot only where the finding rests on one. */
export const findingId = (check: string, subject: string, snapshot: string | null): string =>
  snapshot === null ? `${check}:${subject}` : `${check}:${subject}@${snapshot}`;

/** The snapshot that a finding rests on, and whether it is current. */
export interface Place {
  readonly snapshot: Snapshot;
  readonly newest: boolean;
  readonly stale: boolean;
  /** Whether it would not be stale if a battery had not been charged since. */
  readonly charged: boolean;
}

/** What a check says of a subject. */
export type Said = Pick<
  Finding,
  'channels' | 'verdict' | 'weight' | 'missing' | 'words' | 'remarks' | 'basis'
> & {
  /** The check's word for it, where it has words. */
  readonly pattern?: string | undefined;
  readonly patternWeights?: Finding['patternWeights'] | undefined;
};

/** What it says of a quantity. */
export type Compared = Pick<
  Finding,
  | 'measured'
  | 'limits'
  | 'inside'
  | 'coverage'
  | 'decision'
  | 'spread'
  | 'tiers'
  | 'outside'
  | 'side'
  | 'settle'
>;

const noTiers: Finding['tiers'] = [];

const onBoth = (chance: number): Beyond => ({ low: chance, high: chance });

/** What a verdict without a quantity and without a side stands for. */
const byVerdict: Readonly<Record<Verdict, Beyond>> = {
  within: onBoth(0),
  out: onBoth(1),
  'too-close': onBoth(0.5),
  'not-taken': onBoth(0),
};

/**
 * Makes a finding of a check on a subject. One object literal makes them all, so that V8 gives all of them one hidden
 * class: there are very many.
 *
 * @param place null where it rests on no snapshot
 * @param compared null where there is no quantity
 */
export const findingOf = (
  check: Check,
  context: CheckContext,
  subject: string,
  place: Place | null,
  said: Said,
  compared: Compared | null = null,
): Finding => {
  const snapshot = place === null ? null : place.snapshot;
  const newest = place === null || place.newest;
  const stale = place?.stale ?? false;
  return {
    id: findingId(check.id, subject, snapshot === null ? null : snapshot.id),
    check: check.id,
    kind: check.kind,
    checkTitle: check.title,
    snapshot: snapshot === null ? null : snapshot.id,
    state: snapshot === null ? null : snapshot.state,
    subject,
    channels: said.channels,
    verdict: said.verdict,
    weight: said.weight,
    current: newest && !stale,
    stale,
    charged: place?.charged ?? false,
    newest,
    waived: waiverFor(context.job, check.id, subject),
    measured: compared === null ? null : compared.measured,
    limits: compared === null ? null : compared.limits,
    inside: compared === null ? null : compared.inside,
    coverage: compared === null ? null : compared.coverage,
    decision: compared === null ? null : compared.decision,
    spread: compared === null ? null : compared.spread,
    tiers: compared === null ? noTiers : compared.tiers,
    outside: compared === null ? byVerdict[said.verdict] : compared.outside,
    words: said.words,
    side: compared === null ? null : compared.side,
    settle: compared === null ? null : compared.settle,
    missing: said.missing,
    remarks: said.remarks,
    pattern: said.pattern ?? null,
    patternWeights: said.patternWeights ?? null,
    intermittent: false,
    basis: said.basis,
    wanted: check.wanted === 'always',
    moment: check.moment,
    readIn: check.states,
  };
};
