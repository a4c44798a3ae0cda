import type { Finding, Missing } from '../finding.ts';
import type { Snapshot } from '../job.ts';
import type { Check, Rule, Scene, Tier } from '../pack.ts';
import type { UnitName } from '../readings/units.ts';
import { sceneOf, snapshotsIn } from '../scene.ts';
import { keptPlans } from './fitting.ts';
import { judgeSubject } from './judge-subject.ts';
import { notTaken } from './not-taken.ts';
import type { Occasion, Outcome } from './outcome.ts';
import { vehicleRulesOut } from './refusal.ts';
import { keptSubjects, type Subject, type SubjectsOf } from './subjects.ts';

export interface Measuring {
  readonly limits: readonly string[];
  /** Null where it judges no quantity. */
  readonly unit: UnitName | null;
  readonly tiers: readonly Tier[];
  readonly subjects: SubjectsOf;
  /** Why nothing can be measured, whatever snapshot it is; asked once for a subject, to spare asking each of them. */
  readonly beforehand?: (subject: Subject, scene: Scene, check: Check) => Missing | null;
  /** Groups of snapshots to judge; each fitting snapshot alone where absent. */
  readonly occasions?: (fitting: readonly Snapshot[], subject: Subject, scene: Scene) => readonly Occasion[];
  /** Why there is nothing to say where snapshots fit and none of them makes an occasion. */
  readonly withoutOccasion?: (fitting: readonly Snapshot[], subject: Subject, check: Check) => Missing;
  readonly measure: (occasion: Occasion, subject: Subject, scene: Scene, check: Check) => Outcome;
}

/** Makes a rule of the parts that differ from kind to kind: which subjects, and how each is measured. */
export const measuring = (parts: Measuring): Rule => {
  const planFor = keptPlans(parts.tiers);
  const subjectsFor = keptSubjects(parts.subjects);
  return {
    limits: parts.limits,
    unit: parts.unit,
    judge: (check, asked) => {
      const scene = sceneOf(asked);
      const plan = planFor(check, scene.shape);
      if (!plan.served) return [];
      const subjects = subjectsFor(scene);
      const ruledOut = vehicleRulesOut(plan, scene.job.vehicle);
      if (ruledOut) return subjects.map((subject) => notTaken(check, scene, subject, ruledOut));
      const snapshots = snapshotsIn(scene, plan.states);
      const findings: Finding[] = [];
      for (const subject of subjects) judgeSubject(plan, parts, scene, subject, snapshots, findings);
      return findings;
    },
  };
};
