import { type CheckContext, checkContext } from '../checks/check-context.ts';
import { type Finding, type Measured, weightOrder } from '../finding.ts';
import type { ConditionName, Job, Snapshot, State } from '../job.ts';
import type { Channel } from '../pack.ts';
import { combine, type Estimate, spreadOfOne } from '../readings/estimate.ts';
import { usualFactor } from '../readings/student.ts';
import type { Verdict } from '../readings/verdict.ts';

/** How something stands after, against before; unchanged is within both times. */
export const standings = [
  'fixed',
  'still-out',
  'newly-out',
  'unchanged',
  'too-close',
  'not-retaken',
] as const;
export type Standing = (typeof standings)[number];

/** A reading with the snapshot that it stands in. */
export interface ReadAt extends Measured {
  readonly snapshot: string;
}

/** A channel before and after. */
export interface ComparedReading {
  readonly channel: string;
  readonly state: State;
  readonly before: ReadAt | null;
  readonly after: ReadAt | null;
  /** After less before; errors that both share cancel. Null where one of them is missing. */
  readonly change: Measured | null;
  /** By the checks that judge this channel alone; null where none does. */
  readonly standing: Standing | null;
}

/** A check of several channels, of codes or of the lamp, before and after. */
export interface ComparedFinding {
  /** `pack/check` */
  readonly check: string;
  readonly title: string;
  readonly subject: string;
  readonly state: State | null;
  readonly before: Verdict | null;
  readonly after: Verdict | null;
  readonly standing: Standing;
}

/** Two times of a job, side by side. */
export interface Comparison {
  readonly readings: readonly ComparedReading[];
  readonly findings: readonly ComparedFinding[];
}

/** What moves a body or a signal without any fault, and is not changed by a repair. */
export const telling: readonly ConditionName[] = ['floor', 'load', 'heights-from'];

const isJudged = (verdict: Verdict | null): verdict is Exclude<Verdict, 'not-taken'> =>
  verdict !== null && verdict !== 'not-taken';

/** Null where there is nothing to say: never judged, or judged within for the first time. */
const standingOf = (before: Verdict | null, after: Verdict | null): Standing | null => {
  if (!isJudged(after)) return isJudged(before) ? 'not-retaken' : null;
  if (after === 'out') return before === 'out' ? 'still-out' : 'newly-out';
  if (!isJudged(before)) return null;
  if (after === 'too-close') return 'too-close';
  return before === 'out' ? 'fixed' : 'unchanged';
};

/** What a note says, and what somebody accepted, is nobody's repair. */
const matters = ({ waived, weight, snapshot }: Finding): boolean =>
  waived === null && snapshot !== null && weightOrder[weight] <= weightOrder.look;

const order: readonly Verdict[] = ['out', 'too-close', 'within', 'not-taken'];

/** The worst that checks of one channel alone say of it in one snapshot. */
export const verdictIn = (
  snapshot: string | undefined,
  key: string,
  findings: readonly Finding[],
): Verdict | null => {
  const own = findings.filter(
    (one) =>
      one.snapshot === snapshot && one.channels.length === 1 && one.channels[0] === key && matters(one),
  );
  return order.find((verdict) => own.some((one) => one.verdict === verdict)) ?? null;
};

const measuredOf = (estimate: Estimate, snapshot: string): ReadAt => ({
  value: estimate.value,
  unit: estimate.unit,
  expanded: usualFactor * spreadOfOne(estimate).total,
  snapshot,
});

/** A channel in two snapshots, either of which may be missing; null where neither has a value of it. */
export const compareReading = (
  key: string,
  state: State,
  [before, after]: readonly [Snapshot | undefined, Snapshot | undefined],
  findings: readonly Finding[],
  { taken }: CheckContext,
): ComparedReading | null => {
  const valueIn = (snapshot: Snapshot | undefined): Estimate | undefined => {
    const reading = snapshot?.readings.get(key);
    return reading && taken.get(reading)?.estimate;
  };
  const [was, is] = [valueIn(before), valueIn(after)];
  if (!was && !is) return null;
  const change = was &&
    is && {
      value: is.value - was.value,
      unit: is.unit,
      expanded:
        usualFactor *
        combine([
          { estimate: is, sensitivity: 1 },
          { estimate: was, sensitivity: -1 },
        ]).total,
    };
  return {
    channel: key,
    state,
    before: before && was ? measuredOf(was, before.id) : null,
    after: after && is ? measuredOf(is, after.id) : null,
    change: change ?? null,
    standing: standingOf(
      was ? verdictIn(before?.id, key, findings) : null,
      is ? verdictIn(after?.id, key, findings) : null,
    ),
  };
};

/** Whether a finding is no single channel's own: then it has a row of its own. */
const isOfSeveral = (finding: Finding): boolean =>
  finding.channels.length !== 1 && !finding.moment && matters(finding);

const subjectOf = ({ check, subject, state, channels }: Finding): string =>
  [check, subject, channels.length > 0 ? state : ''].join(' ');

export const compareFindings = (
  findings: readonly Finding[],
  /** The findings of one subject on either side; null where the other side did not judge it. */
  sides: (own: readonly Finding[]) => readonly [Finding | null, Finding | null],
  /** Whether the check was judged afterwards, so that a subject which is gone is gone. */
  wasJudged: (check: string) => boolean,
): ComparedFinding[] => {
  const bySubject = new Map<string, Finding[]>();
  for (const finding of findings.filter(isOfSeveral)) {
    const key = subjectOf(finding);
    bySubject.set(key, [...(bySubject.get(key) ?? []), finding]);
  }
  return [...bySubject.values()].flatMap((own): ComparedFinding[] => {
    const [before, after] = sides(own);
    const one = after ?? before;
    if (!one) return [];
    const isGone = after === null && one.channels.length === 0 && wasJudged(one.check);
    const [was, is] = [before?.verdict ?? null, isGone ? 'within' : (after?.verdict ?? null)];
    const standing = standingOf(was, is);
    if (standing === null) return [];
    const { check, checkTitle: title, subject, state } = one;
    return [{ check, title, subject, state, before: was, after: is, standing }];
  });
};

/** Two snapshots of a job side by side, whatever came between them. */
export const compareSnapshots = (
  job: Job,
  findings: readonly Finding[],
  channels: ReadonlyMap<string, Channel>,
  before: Snapshot,
  after: Snapshot,
): Comparison => {
  const context = checkContext(job, channels, true);
  const keys = new Set([...before.readings.keys(), ...after.readings.keys()]);
  const inSnapshot = (own: readonly Finding[], { id }: Snapshot): Finding | null =>
    own.find(({ snapshot }) => snapshot === id) ?? null;
  return {
    readings: [...keys].flatMap((key) => {
      const row = compareReading(key, after.state, [before, after], findings, context);
      return row ? [row] : [];
    }),
    findings: compareFindings(
      findings.filter(({ snapshot }) => snapshot === before.id || snapshot === after.id),
      (own) => [inSnapshot(own, before), inSnapshot(own, after)],
      (check) => findings.some((one) => one.check === check && one.snapshot === after.id),
    ),
  };
};
