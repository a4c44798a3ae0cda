import { type Finding, type Measured, type Missing, type Remark, weightOrder } from '../finding.ts';
import type { Conditions, Snapshot, State, Weight } from '../job.ts';
import { parseKey } from '../key.ts';
import type { Check, Rule, Scene, Tier } from '../pack.ts';
import type { Spread } from '../readings/estimate.ts';
import { settle } from '../readings/settle.ts';
import type { UnitName } from '../readings/units.ts';
import { inside, type Judgement, judge, margin, type Verdict } from '../readings/verdict.ts';
import { staleSince } from '../steps/staleness.ts';
import { waiverFor } from './waivers.ts';

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
      /** The channels that were read, where they are not the subject's. */
      readonly channels?: readonly string[];
    };

export interface Measuring {
  readonly limits: readonly string[];
  readonly unit: UnitName;
  readonly tiers: readonly Tier[];
  readonly subjects: (scene: Scene) => readonly Subject[];
  /** Groups of snapshots to judge; each fitting snapshot alone where absent. */
  readonly occasions?: (fitting: readonly Snapshot[]) => readonly Occasion[];
  /** Why there is nothing to say where snapshots fit and none of them makes an occasion. */
  readonly withoutOccasion?: Missing;
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

/** The reason why a snapshot's conditions rule a check out, or null. */
const conditionsRuleOut = (check: Check, tiers: readonly Tier[], conditions: Conditions): Missing | null => {
  const needs = Object.assign({}, check.needs, ...tiers.map((tier) => tier.needs)) as Check['needs'];
  for (const [condition, wants] of Object.entries(needs)) {
    const is = conditions.words[condition as keyof typeof needs];
    if (is === undefined) return { why: 'condition-not-stated', condition, wants };
    if (is !== wants) return { why: 'condition-differs', condition, wants, is };
  }
  for (const [condition, not] of Object.entries(check.unless)) {
    const is = conditions.words[condition as keyof typeof check.unless];
    if (is === not) return { why: 'condition-differs', condition, wants: `not ${not}`, is };
  }
  return null;
};

/** Tiers that serve a state and layout, the heaviest first. */
export const fittingTiers = (tiers: readonly Tier[], state: State, scene: Scene): Tier[] =>
  tiers
    .filter((tier) => tier.states === null || tier.states.includes(state))
    .filter((tier) => tier.layouts === null || tier.layouts.includes(scene.job.vehicle.layout))
    .sort((a, b) => weightOrder[a.weight] - weightOrder[b.weight]);

/** The vehicle's own figures in place of a tier: the one whose weight they give, else the tightest. */
const withServiceData = (
  tiers: readonly Tier[],
  check: Check,
  subject: Subject,
  scene: Scene,
): { tiers: readonly Tier[]; used: ReadonlySet<Tier> } => {
  const used = new Set<Tier>();
  let list = [...tiers];
  // The figures for one corner come last, so that they stand over those for all.
  const byReach = [...scene.job.vehicle.serviceData].sort(
    (a, b) => Number(a.of !== null) - Number(b.of !== null),
  );
  for (const data of byReach) {
    const fits = data.of === null || data.of === subject.name || subject.channels.includes(data.of);
    if (data.check !== check.id || !fits) continue;
    const replaced = data.weight ? list.find((tier) => tier.weight === data.weight) : list.at(-1);
    const model = replaced ?? list.at(-1);
    if (!model) continue;
    const own: Tier = {
      ...model,
      weight: data.weight ?? model.weight,
      limits: data.limits,
      basis: { kind: 'vehicle-data', source: data.source },
    };
    used.add(own);
    list = [...list.filter((tier) => tier !== replaced), own].sort(
      (a, b) => weightOrder[a.weight] - weightOrder[b.weight],
    );
  }
  return { tiers: list, used };
};

interface TierResult extends Judgement {
  readonly tier: Tier;
}

/** The heaviest tier that is out, else the heaviest too close to call, else within against the tightest. */
const decide = (
  tiers: readonly Tier[],
  value: number,
  expanded: number,
  check: Check,
): TierResult | undefined => {
  const results = tiers.map((tier) => ({ tier, ...judge(value, expanded, tier.limits, check.decision) }));
  return (
    results.find(({ verdict }) => verdict === 'out') ??
    results.find(({ verdict }) => verdict === 'too-close') ??
    results.at(-1)
  );
};

const severity: Readonly<Record<TierResult['verdict'], number>> = { out: 0, 'too-close': 1, within: 2 };

/**
 * The worse of several values of one subject: the heavier verdict, and of two alike the one that comes nearer to a
 * limit or goes further beyond it.
 */
export const worst = <T extends { readonly value: number; readonly expanded: number }>(
  values: readonly [T, ...T[]],
  tiers: readonly Tier[],
  state: State,
  subject: Subject,
  scene: Scene,
  check: Check,
): T => {
  const own = withServiceData(fittingTiers(tiers, state, scene), check, subject, scene).tiers;
  const ranked = values.map((one) => {
    const result = decide(own, one.value, one.expanded, check);
    const room = result ? margin(one.value, result.tier.limits) : null;
    return {
      one,
      rank: result ? [severity[result.verdict], weightOrder[result.tier.weight]] : [3, 3],
      room: room ?? Number.POSITIVE_INFINITY,
    };
  });
  const [first] = ranked.sort(
    (a, b) =>
      (a.rank[0] ?? 0) - (b.rank[0] ?? 0) ||
      (a.rank[1] ?? 0) - (b.rank[1] ?? 0) ||
      (a.room < b.room ? -1 : 1),
  );
  return first?.one ?? values[0];
};

/** A weight that is no heavier than `cap`. */
const capped = (weight: Weight, cap: Weight | undefined): Weight =>
  cap !== undefined && weightOrder[weight] < weightOrder[cap] ? cap : weight;

const wordsFor = (says: Tier['says'], verdict: Verdict, side: 'low' | 'high' | null): string | null => {
  if (verdict === 'within') return says.within ?? null;
  const bySide = side === 'low' ? says.low : says.high;
  return bySide ?? says.out ?? null;
};

/** A finding's stable name; a check that found no snapshot has none in it. */
export const findingId = (check: string, subject: string, snapshot: string | null): string =>
  snapshot === null ? `${check}:${subject}` : `${check}:${subject}@${snapshot}`;

/** A `not-taken` finding: once for a check and subject, bearing no snapshot. */
export const notTaken = (
  check: Check,
  scene: Scene,
  subject: Subject,
  reason: Missing,
  basis = check.basis,
): Finding => ({
  id: findingId(check.id, subject.name, null),
  check: check.id,
  kind: check.kind,
  checkTitle: check.title,
  snapshot: null,
  state: null,
  subject: subject.name,
  channels: subject.channels,
  verdict: 'not-taken',
  weight: 'note',
  current: true,
  stale: false,
  newest: true,
  waived: waiverFor(scene.job, check.id, subject.name),
  measured: null,
  limits: null,
  inside: null,
  words: null,
  side: null,
  settle: null,
  missing: reason,
  remarks: [],
  basis,
  wanted: check.wanted === 'always',
});

const judged = (
  check: Check,
  scene: Scene,
  subject: Subject,
  occasion: Occasion,
  outcome: Extract<Outcome, { taken: true }>,
  newest: boolean,
): Finding | null => {
  const snapshot = newestOf(occasion);
  const expanded = (outcome.factor ?? 2) * outcome.spread.total;
  const own = withServiceData(fittingTiers(outcome.tiers, snapshot.state, scene), check, subject, scene);
  const best = decide(own.tiers, outcome.value, expanded, check);
  if (!best) return null;
  const { tier, verdict, side } = best;
  const channels = outcome.channels ?? subject.channels;
  const oldest = occasion[0] ?? snapshot;
  const stale = staleSince(scene.job.log, scene.channels, channels, oldest.stamp.at) !== null;
  const measured: Measured = { value: outcome.value, unit: outcome.unit, expanded };
  const remarks: Remark[] = [...(outcome.remarks ?? [])];
  if (own.used.has(tier)) remarks.push({ kind: 'service-data', source: tier.basis.source ?? '' });
  return {
    id: findingId(check.id, subject.name, snapshot.id),
    check: check.id,
    kind: check.kind,
    checkTitle: check.title,
    snapshot: snapshot.id,
    state: snapshot.state,
    subject: subject.name,
    channels,
    verdict,
    weight: capped(tier.weight, outcome.cap),
    current: newest && !stale,
    stale,
    newest,
    waived: waiverFor(scene.job, check.id, subject.name),
    measured,
    limits: tier.limits,
    inside: inside(outcome.value, outcome.spread.total, tier.limits),
    words: wordsFor(tier.says, verdict, side),
    side,
    settle:
      verdict === 'too-close'
        ? settle(outcome.value, outcome.spread, tier.limits, outcome.scatterFrom, outcome.count)
        : null,
    missing: null,
    remarks,
    basis: tier.basis,
    wanted: check.wanted === 'always',
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
  const occasions = parts.occasions?.(fitting) ?? fitting.map((snapshot) => [snapshot]);
  const reasons: Missing[] =
    fitting.length > 0 && occasions.length === 0 && parts.withoutOccasion ? [parts.withoutOccasion] : [];
  const findings: Finding[] = [];
  const judgedStates = new Set<State>();
  // Newest first, so that the first judgement of a state is its newest one.
  for (const occasion of [...occasions].reverse()) {
    const { state, conditions } = newestOf(occasion);
    const outcome = parts.measure(occasion, subject, scene, check);
    // A reading that was never taken is the plainer reason, so the conditions are asked only of those that were.
    const fits = outcome.taken ? fittingTiers(outcome.tiers, state, scene) : [];
    const against = outcome.taken ? conditionsRuleOut(check, fits, conditions) : null;
    if (!outcome.taken || against) {
      reasons.unshift(against ?? (outcome as { missing: Missing }).missing);
      continue;
    }
    const finding = judged(check, scene, subject, occasion, outcome, !judgedStates.has(state));
    if (finding) findings.unshift(finding);
    judgedStates.add(state);
  }
  return findings.length > 0
    ? findings
    : [notTaken(check, scene, subject, tellingReason(reasons, check, subject), parts.tiers.at(-1)?.basis)];
};

/** Makes a rule of the parts that differ from kind to kind: which subjects, and how each is measured. */
export const measuring = (parts: Measuring): Rule => ({
  limits: parts.limits,
  unit: parts.unit,
  judge: (check, scene) => {
    const { layout } = scene.job.vehicle;
    if (check.layouts !== null && !check.layouts.includes(layout)) return [];
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
