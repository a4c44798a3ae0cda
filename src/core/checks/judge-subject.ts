import type { Finding, Missing } from '../finding.ts';
import type { Snapshot, State } from '../job.ts';
import { isRepair } from '../steps/staleness.ts';
import type { CheckContext } from './check-context.ts';
import { type CheckPlan, fittingOf } from './check-plan.ts';
import { judged } from './judged.ts';
import type { Measured, MeasuringParts } from './measuring-parts.ts';
import { notTaken } from './not-taken.ts';
import { newestOf, type Occasion } from './outcome.ts';
import { likeConditions } from './over-time/like-conditions.ts';
import { conditionsRuleOut, notMeasured, type Refusal } from './refusal.ts';
import type { Subject } from './subjects.ts';
import { capped } from './tier-choice.ts';

/** States as bits, so that a set of them is a number: there are two for every subject of every check. */
const bits: Readonly<Record<State, number>> = { rest: 1, 'key-on': 2, cranking: 4, running: 8, driving: 16 };

/** What the judgements of a subject leave behind, from the newest occasion to the oldest. */
interface Course {
  /** States that were judged, those of them with a finding, and those where a reading could not be judged. */
  judged: number;
  found: number;
  refused: number;
  /** Whether any finding is the newest of its state. */
  speaks: boolean;
  /** Of a check that may be intermittent: the newest snapshots that are within and are held against older ones. */
  good: Map<State, Snapshot> | null;
  /** Why an occasion gave no judgement: the newest reason, and the newest that is more than a plain absence. */
  newest: Missing | null;
  telling: Missing | null;
}

const refuse = (course: Course, { missing, supersedes }: Refusal, bit: number): void => {
  course.newest ??= missing;
  if (missing.why !== 'no-reading') course.telling ??= missing;
  if (supersedes) course.refused |= bit;
};

/** A subject of a check, with all that its judgement needs. */
export interface SubjectToJudge<Parameters extends Measured> {
  readonly plan: CheckPlan;
  readonly parts: MeasuringParts<Parameters>;
  readonly parameters: Parameters;
  readonly context: CheckContext;
  readonly subject: Subject;
  /** The snapshots of the states in which there is something to judge, the oldest first. */
  readonly fitting: readonly Snapshot[];
}

const judgeOccasion = <Parameters extends Measured>(
  { plan, parts, parameters, context, subject }: SubjectToJudge<Parameters>,
  occasion: Occasion,
  course: Course,
): Finding | null => {
  const { check } = plan;
  const { state, conditions } = newestOf(occasion);
  const bit = bits[state];
  if (!context.superseded && (course.found & bit) !== 0 && course.good?.has(state) !== true) return null;
  const outcome = parts.measure(occasion, subject, context, check, parameters);
  if (!outcome.taken) {
    refuse(course, notMeasured(outcome.missing), bit);
    return null;
  }
  const own = outcome.tiers === parameters.tiers ? plan.fitting[state] : undefined;
  const fitting = own ?? fittingOf(check, outcome.tiers, state, context.job.vehicle.layout);
  const against = conditionsRuleOut(plan, fitting, conditions);
  if (against) {
    refuse(course, against, bit);
    return null;
  }
  const first = (course.judged & bit) === 0;
  const refused = (course.refused & bit) !== 0;
  const finding = judged({ check, context, subject, occasion, fitting, first, refused }, outcome);
  course.judged |= bit;
  if (finding === null) return null;
  if ((course.found & bit) !== 0) return superseded(finding, occasion, context, course);
  course.found |= bit;
  if (check.intermittent && finding.verdict === 'within' && !finding.stale) {
    course.good ??= new Map();
    course.good.set(state, newestOf(occasion));
  }
  if (finding.newest) course.speaks = true;
  return finding;
};

/** Whether something was repaired between two snapshots: then what went may have gone by it, whatever it depends on. */
const repairedBetween = (before: Snapshot, after: Snapshot, { log }: CheckContext['job']): boolean =>
  log.some(
    (entry) => isRepair(entry) && entry.stamp.at >= before.stamp.at && entry.stamp.at <= after.stamp.at,
  );

/**
 * A finding that a newer one of its state supersedes: intermittent where it was out, the newest is within in like
 * conditions, and nothing was repaired since. Of several only the newest is kept so.
 */
const superseded = (
  finding: Finding,
  occasion: Occasion,
  { superseded: all, job }: CheckContext,
  course: Course,
): Finding | null => {
  const kept = all ? finding : null;
  const { good } = course;
  if (good === null || finding.state === null || finding.verdict !== 'out' || finding.stale) return kept;
  const newest = good.get(finding.state);
  const own = newestOf(occasion);
  if (newest === undefined || !likeConditions(own, newest) || repairedBetween(own, newest, job)) return kept;
  good.delete(finding.state);
  return { ...finding, intermittent: true, weight: capped(finding.weight, 'look') };
};

/** Turns round the part of a list that begins at a place. */
const reverseFrom = (list: Finding[], start: number): void => {
  for (let low = start, high = list.length - 1; low < high; low += 1, high -= 1) {
    const [first, last] = [list[low], list[high]];
    if (first && last) {
      list[low] = last;
      list[high] = first;
    }
  }
};

/**
 * Judges one subject of a check on all its occasions, and adds what is found, the oldest first; last, where none of it
 * is the newest of its state, why there is nothing to say.
 *
 * @param findings to add to
 */
export const judgeSubject = <Parameters extends Measured>(
  judged: SubjectToJudge<Parameters>,
  findings: Finding[],
): void => {
  const { plan, parts, parameters, context, subject, fitting } = judged;
  const { check } = plan;
  const { channels } = subject;
  const say = (missing: Missing): void => {
    findings.push(notTaken(check, context, subject, missing, parameters.tiers.at(-1)?.basis));
  };
  const beforehand = fitting.length > 0 ? parts.beforehand?.(subject, context, check) : null;
  if (beforehand) {
    say(beforehand);
    return;
  }
  const occasions =
    parts.occasions?.(fitting, subject, context, parameters) ?? fitting.map((snapshot) => [snapshot]);
  const start = findings.length;
  const course: Course = {
    judged: 0,
    found: 0,
    refused: 0,
    speaks: false,
    good: null,
    newest: null,
    telling: null,
  };
  // Newest first, so that the first judgement of a state is its newest one.
  for (let place = occasions.length - 1; place >= 0; place -= 1) {
    const finding = judgeOccasion(judged, occasions[place] ?? [], course);
    if (finding) findings.push(finding);
    // One that came and went stands beside the newest of its state.
    const enough =
      !context.superseded && !check.intermittent && findings.length - start === plan.judgedStates;
    if (enough) break;
  }
  reverseFrom(findings, start);
  if (course.speaks) return;
  const none =
    fitting.length > 0 && occasions.length === 0
      ? parts.withoutOccasion?.(fitting, subject, check, parameters)
      : undefined;
  say(course.telling ?? course.newest ?? none ?? { why: 'no-snapshot', states: check.states, channels });
};
