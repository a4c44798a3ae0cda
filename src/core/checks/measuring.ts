import type { Finding, Measured, Missing, Remark } from '../finding.ts';
import type { Conditions, Snapshot, State, Weight } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Check, Rule, Scene, Tier } from '../pack.ts';
import type { Spread } from '../readings/estimate.ts';
import { settle } from '../readings/settle.ts';
import type { TrendSettle } from '../readings/settle-trend.ts';
import type { UnitName } from '../readings/units.ts';
import { inside, type Limits } from '../readings/verdict.ts';
import { staleSince } from '../steps/staleness.ts';
import { baseFinding, findingId } from './finding-base.ts';
import { notTaken } from './not-taken.ts';
import { capped, decide, fittingTiers, withServiceData, wordsFor } from './tier-choice.ts';

/** What a check is about: a corner, an axle, the body or a channel, and the channels that it reads there. */
export interface Subject {
  readonly name: string;
  readonly channels: readonly string[];
}

/** The snapshots that one judgement rests on, oldest first; most checks look at one. */
export type Occasion = readonly Snapshot[];

export type Outcome =
  | { readonly taken: false; readonly missing: Missing }
  | {
      readonly taken: true;
      readonly value: number;
      readonly unit: UnitName;
      readonly spread: Spread;
      /** Coverage factor; 2 unless few points were fitted. */
      readonly factor?: number;
      readonly scatterFrom: 'resolution' | 'repeats';
      /** How many repeats the value rests on. */
      readonly count: number;
      readonly tiers: readonly Tier[];
      readonly remarks?: readonly Remark[];
      /** Never heavier than this. */
      readonly cap?: Weight;
      /** What would settle it against these limits, where that is not the reading itself. */
      readonly settle?: (limits: Limits) => TrendSettle;
      /** The channels that were read, where they are not the subject's. */
      readonly channels?: readonly string[];
    }
  | Recognised;

/** A judgement that rests on readings and is no quantity against limits: a pattern among them. */
export interface Recognised {
  readonly taken: true;
  readonly verdict: 'within' | 'out' | 'too-close';
  /** One tier without limits, for its weight, its words and its basis. */
  readonly tiers: readonly Tier[];
  readonly remarks: readonly Remark[];
}

export interface Measuring {
  readonly limits: readonly string[];
  /** Null where it judges no quantity. */
  readonly unit: UnitName | null;
  readonly tiers: readonly Tier[];
  readonly subjects: (scene: Scene) => readonly Subject[];
  /** Groups of snapshots to judge; each fitting snapshot alone where absent. */
  readonly occasions?: (fitting: readonly Snapshot[], subject: Subject, scene: Scene) => readonly Occasion[];
  /** Why there is nothing to say where snapshots fit and none of them makes an occasion. */
  readonly withoutOccasion?: (fitting: readonly Snapshot[], subject: Subject, check: Check) => Missing;
  readonly measure: (occasion: Occasion, subject: Subject, scene: Scene, check: Check) => Outcome;
}

/** `not taken` with its reason. */
export const missing = (reason: Missing): Outcome => ({ taken: false, missing: reason });

/** The last snapshot of an occasion: the one that its finding bears. */
export const newestOf = (occasion: Occasion): Snapshot => {
  const last = occasion.at(-1);
  if (!last) throw new Error('an occasion without a snapshot');
  return last;
};

/** The reason why the vehicle itself rules a check out, or null. */
const vehicleRulesOut = (check: Check, scene: Scene): Missing | null => {
  const { vehicle } = scene.job;
  const stated = {
    system: vehicle.system,
    'sensor-signal': vehicle.sensorSignal,
    battery: vehicle.battery,
    charging: vehicle.charging,
  };
  for (const [what, wants] of Object.entries(check.only)) {
    const is = stated[what as keyof typeof stated];
    if (is === null) return { why: 'vehicle-not-stated', what };
    if (!wants.includes(is)) return { why: 'vehicle-differs', what, wants: wants.join(' or '), is };
  }
  return null;
};

/** Why a snapshot's conditions rule a check out, and whether they do so by what they fail to say. */
interface Refusal {
  readonly missing: Missing;
  /** Whether the reading was taken all the same, so that an older good one no longer speaks for this state. */
  readonly supersedes: boolean;
}

const conditionsRuleOut = (check: Check, tiers: readonly Tier[], conditions: Conditions): Refusal | null => {
  const needs = Object.assign({}, check.needs, ...tiers.map((tier) => tier.needs)) as Check['needs'];
  for (const [condition, wants] of Object.entries(needs)) {
    const is = conditions.words[condition as keyof typeof needs];
    if (is === undefined)
      return { missing: { why: 'condition-not-stated', condition, wants }, supersedes: true };
    if (is !== wants)
      return { missing: { why: 'condition-differs', condition, wants, is }, supersedes: true };
  }
  for (const [condition, not] of Object.entries(check.unless)) {
    const is = conditions.words[condition as keyof typeof check.unless];
    if (is === not) {
      return { missing: { why: 'condition-differs', condition, wants: `not ${not}`, is }, supersedes: false };
    }
  }
  return null;
};

/** Why an occasion gives no judgement, or null where it gives one. */
const refusal = (outcome: Outcome, check: Check, occasion: Occasion, scene: Scene): Refusal | null => {
  if (outcome.taken) {
    const { state, conditions } = newestOf(occasion);
    const against = conditionsRuleOut(check, fittingTiers(outcome.tiers, state, scene), conditions);
    // What is only of its moment is not overtaken by another moment.
    return against && check.moment ? { ...against, supersedes: false } : against;
  }
  const { missing: reason } = outcome;
  return { missing: reason, supersedes: reason.why === 'jumping' || reason.why === 'could-not-be-taken' };
};

/** What a finding has of the occasion that it rests on. */
const placed = (
  check: Check,
  scene: Scene,
  subject: Subject,
  occasion: Occasion,
  channels: readonly string[],
  newest: boolean,
): Omit<Finding, 'verdict' | 'weight'> => {
  const snapshot = newestOf(occasion);
  const oldest = occasion[0] ?? snapshot;
  const stale = staleSince(scene.job.log, scene.channels, channels, oldest.stamp.at) !== null;
  return {
    ...baseFinding(check, scene, subject.name),
    id: findingId(check.id, subject.name, snapshot.id),
    snapshot: snapshot.id,
    state: snapshot.state,
    channels,
    current: newest && !stale,
    stale,
    newest,
  };
};

const recognised = (base: Omit<Finding, 'verdict' | 'weight'>, outcome: Recognised): Finding | null => {
  const [tier] = outcome.tiers;
  if (!tier) return null;
  const { verdict, remarks } = outcome;
  const words = wordsFor(tier.says, verdict, null);
  return { ...base, verdict, weight: tier.weight, words, remarks, basis: tier.basis };
};

const judged = (
  check: Check,
  scene: Scene,
  subject: Subject,
  occasion: Occasion,
  outcome: Extract<Outcome, { taken: true }>,
  newest: boolean,
): Finding | null => {
  const snapshot = newestOf(occasion);
  if ('verdict' in outcome) {
    return recognised(placed(check, scene, subject, occasion, subject.channels, newest), outcome);
  }
  const expanded = (outcome.factor ?? 2) * outcome.spread.total;
  const own = withServiceData(fittingTiers(outcome.tiers, snapshot.state, scene), check, subject, scene);
  const best = decide(own.tiers, outcome.value, expanded, check);
  if (!best) return null;
  const { tier, verdict, side } = best;
  const measured: Measured = { value: outcome.value, unit: outcome.unit, expanded };
  const remarks: Remark[] = [...(outcome.remarks ?? [])];
  if (own.used.has(tier)) remarks.push({ kind: 'service-data', source: tier.basis.source ?? '' });
  return {
    ...placed(check, scene, subject, occasion, outcome.channels ?? subject.channels, newest),
    verdict,
    weight: capped(tier.weight, outcome.cap),
    measured,
    limits: tier.limits,
    inside: inside(outcome.value, outcome.spread.total, tier.limits),
    words: wordsFor(tier.says, verdict, side),
    side,
    settle:
      verdict === 'too-close'
        ? (outcome.settle?.(tier.limits) ??
          settle(outcome.value, outcome.spread, tier.limits, outcome.scatterFrom, outcome.count))
        : null,
    remarks,
    basis: tier.basis,
  };
};

/** The reason that tells most: a condition or a refusal before a plain absence. */
const tellingReason = (reasons: readonly Missing[], check: Check, subject: Subject): Missing =>
  reasons.findLast(({ why }) => why !== 'no-reading') ??
  reasons.at(-1) ?? { why: 'no-snapshot', states: check.states, channels: subject.channels };

const judgeSubject = (check: Check, parts: Measuring, scene: Scene, subject: Subject): Finding[] => {
  const ruledOut = vehicleRulesOut(check, scene);
  if (ruledOut) return [notTaken(check, scene, subject, ruledOut)];
  const fitting = scene.job.snapshots.filter(
    ({ state }) => check.states.includes(state) && fittingTiers(parts.tiers, state, scene).length > 0,
  );
  const occasions = parts.occasions?.(fitting, subject, scene) ?? fitting.map((snapshot) => [snapshot]);
  const reasons: Missing[] =
    fitting.length > 0 && occasions.length === 0 && parts.withoutOccasion
      ? [parts.withoutOccasion(fitting, subject, check)]
      : [];
  const findings: Finding[] = [];
  const judgedStates = new Set<State>();
  const refusedStates = new Set<State>();
  // Newest first, so that the first judgement of a state is its newest one.
  for (const occasion of [...occasions].reverse()) {
    const { state } = newestOf(occasion);
    const outcome = parts.measure(occasion, subject, scene, check);
    const against = refusal(outcome, check, occasion, scene);
    if (!outcome.taken || against) {
      if (against) reasons.unshift(against.missing);
      if (against?.supersedes) refusedStates.add(state);
      continue;
    }
    const finding = judged(check, scene, subject, occasion, outcome, !judgedStates.has(state));
    // What was good before a reading that could not be judged is no longer known to be good; what was out still is.
    const overtaken = refusedStates.has(state) && finding?.verdict === 'within';
    if (finding) findings.unshift(overtaken ? { ...finding, newest: false, current: false } : finding);
    judgedStates.add(state);
  }
  if (findings.some(({ newest }) => newest)) return findings;
  const reason = tellingReason(reasons, check, subject);
  return [...findings, notTaken(check, scene, subject, reason, parts.tiers.at(-1)?.basis)];
};

/** Makes a rule of the parts that differ from kind to kind: which subjects, and how each is measured. */
export const measuring = (parts: Measuring): Rule => ({
  limits: parts.limits,
  unit: parts.unit,
  judge: (check, scene) => {
    const { layout } = scene.job.vehicle;
    const served = parts.tiers.some((tier) => tier.layouts === null || tier.layouts.includes(layout));
    if (!served) return [];
    return parts.subjects(scene).flatMap((subject) => judgeSubject(check, parts, scene, subject));
  },
});

/** Subjects for the channels that a check names: one a fitted corner, or the channel itself. */
export const subjectsOf = (scene: Scene, channelId: string, others: readonly string[] = []): Subject[] => {
  const per = (id: string): string => scene.channels.get(parseKey(id).base)?.per ?? 'vehicle';
  const { fitted } = scene.job.vehicle;
  const atCorners = fitted.map((corner) => ({
    name: corner,
    channels: [channelId, ...others].map((id) => (per(id) === 'vehicle' ? id : `${id}.${corner}`)),
  }));
  if (per(channelId) === 'corner') return atCorners;
  const whole = { name: channelId, channels: [channelId, ...others] };
  if (per(channelId) === 'vehicle') return [whole];
  // A channel of either form: the corners where it was read, and the vehicle's one reading where it was or none was.
  const read = atCorners.filter(({ channels }) =>
    scene.job.snapshots.some((s) => s.readings.has(channels[0] ?? '')),
  );
  const one = scene.job.snapshots.some((snapshot) => snapshot.readings.has(channelId));
  return one || read.length === 0 ? [whole, ...read] : read;
};
