import type { Finding } from './finding.ts';
import type { State } from './job.ts';
import type { BriefWorksheet } from './worksheet.ts';
import type { StepState, WorksheetHoldPoint, WorksheetStep } from './worksheet-parts.ts';

/** How a step stands now, and how it stood; null where it was not on the sheet. */
export interface StepChange {
  readonly step: WorksheetStep;
  readonly was: StepState | null;
  readonly now: StepState | null;
}

export interface HoldPointChange {
  readonly point: WorksheetHoldPoint;
  readonly clear: boolean;
}

/** What became of a job between two worksheets. */
export interface Changes {
  readonly steps: readonly StepChange[];
  readonly holdPoints: readonly HoldPointChange[];
  /** Readings that work has made stale, by the state in which they were taken. */
  readonly stale: readonly { readonly state: State; readonly channels: readonly string[] }[];
}

/** A step that is off the sheet is as good as done: what it asked for is there. */
const stepChanges = (before: BriefWorksheet, after: BriefWorksheet): StepChange[] => {
  const was = new Map(before.steps.map((step) => [step.id, step.state]));
  const now = new Set(after.steps.map(({ id }) => id));
  const gone = before.steps
    .filter(({ id, state }) => !now.has(id) && (state === 'ready' || state === 'waiting'))
    .map((step): StepChange => ({ step, was: step.state, now: null }));
  const changed = after.steps
    .map((step): StepChange => ({ step, was: was.get(step.id) ?? null, now: step.state }))
    .filter(({ was: old, now: state }) => (old ?? 'not-needed') !== state);
  return [...gone, ...changed];
};

/** Findings that hold no more once they are stale, by their readings. */
const staleKeys = (findings: readonly Finding[]): Map<State, Set<string>> => {
  const keys = new Map<State, Set<string>>();
  for (const { stale, newest, moment, state, channels } of findings) {
    if (!stale || !newest || moment || state === null) continue;
    const own = keys.get(state) ?? new Set();
    for (const channel of channels) own.add(channel);
    keys.set(state, own);
  }
  return keys;
};

const newlyStale = (before: BriefWorksheet, after: BriefWorksheet): Changes['stale'] => {
  const old = staleKeys(before.findings);
  return [...staleKeys(after.findings)].flatMap(([state, keys]) => {
    const channels = [...keys].filter((key) => !old.get(state)?.has(key)).sort();
    return channels.length > 0 ? [{ state, channels }] : [];
  });
};

/** What changed in steps, hold points and the freshness of readings from one worksheet of a job to the next. */
export const compareSheets = (before: BriefWorksheet, after: BriefWorksheet): Changes => ({
  steps: stepChanges(before, after),
  holdPoints: after.holdPoints.flatMap((point) => {
    const old = before.holdPoints.find(({ id }) => id === point.id);
    // One that did not hold anything up before counts as having been clear.
    return (old?.clear ?? true) === point.clear ? [] : [{ point, clear: point.clear }];
  }),
  stale: newlyStale(before, after),
});
