import { adviceOn } from './advice.ts';
import { type NextTests, nextTests } from './next-tests.ts';
import type { Advice } from './ranking.ts';
import { actionsOf } from './stakes.ts';
import type { WeighedSuspects } from './weigh.ts';

/** What weighed suspects come to: which tests pay, and whether acting on the leader is advised. */
export interface Diagnosis {
  readonly weighed: WeighedSuspects;
  readonly next: NextTests;
  /** Null where nothing is priced, or where something else leads. */
  readonly advice: Advice | null;
}

/** Works out what to do about weighed suspects. Weighing the tests takes most of the time, so it is done once a job. */
export const diagnose = (weighed: WeighedSuspects): Diagnosis => {
  const { model, worlds, stakes } = weighed;
  const actions = stakes ? actionsOf(model.hypotheses, worlds, stakes) : [];
  const next = nextTests(weighed, actions);
  return { weighed, next, advice: adviceOn(weighed, next.paying, actions) };
};
