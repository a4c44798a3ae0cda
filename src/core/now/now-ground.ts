import type { Act } from '../acts.ts';
import type { Finding } from '../finding.ts';
import type { Instant, Job, State } from '../job.ts';
import type { OpenDanger } from '../loop/dangers.ts';
import type { Decisions } from '../loop/decisions.ts';
import type { Fault } from '../loop/faults.ts';
import type { Retest } from '../loop/retests.ts';
import type { Troubles } from '../loop/troubles.ts';
import type { PreparedPacks } from '../prepare/prepared-packs.ts';
import type { Ground } from '../steps/ground.ts';
import type { Diagnosis } from '../suspects/diagnosis.ts';
import type { SuspectModel } from '../suspects/suspect-model.ts';
import type { WorksheetHoldPoint, WorksheetStep } from '../worksheet-parts.ts';

/** What the kinds of `now` look at. */
export interface NowGround {
  readonly job: Job;
  readonly asOf: Instant;
  readonly prepared: PreparedPacks;
  readonly findings: readonly Finding[];
  readonly steps: readonly WorksheetStep[];
  readonly holdPoints: readonly WorksheetHoldPoint[];
  readonly diagnosis: Diagnosis | null;
  /** Everything that could be at fault on such a vehicle, and every test of it. */
  readonly model: SuspectModel;
  readonly decisions: Decisions;
  readonly dangers: readonly OpenDanger[];
  readonly forbidden: ReadonlySet<Act>;
  readonly faults: readonly Fault[];
  readonly retests: readonly Retest[];
  readonly troubles: Troubles;
  /** What conditions of packs are asked of. */
  readonly facts: Ground;
}

/** Acts that the states of a vehicle take. */
const actsOfState: Partial<Readonly<Record<State, readonly Act[]>>> = {
  cranking: ['crank'],
  running: ['crank'],
  driving: ['crank', 'drive'],
};

/** Whether the vehicle may be brought into a state. */
export const mayBe = (state: State, { forbidden }: Pick<NowGround, 'forbidden'>): boolean =>
  !(actsOfState[state] ?? []).some((act) => forbidden.has(act));

/** Whether these packs apply at all: where the brakes share the air, only qualified people go on. */
export const isForOthers = ({ dangers }: NowGround): boolean =>
  dangers.some(({ id }) => id === 'shared-with-brakes');

/** Whether anything is wrong that is neither put right nor decided. */
export const isTroubled = ({ troubles: { findings, tests } }: NowGround): boolean =>
  findings.length > 0 || tests.length > 0;

/** Whether there is anything that a reading or a test could find the cause of. */
export const isInQuestion = (ground: NowGround): boolean =>
  isTroubled(ground) || ground.troubles.complaint || ground.faults.length > 0;

/** A step of the worksheet by its name. */
export const stepNamed = (name: string, { steps }: Pick<NowGround, 'steps'>): WorksheetStep | undefined =>
  steps.find(({ id }) => id === name || id.endsWith(`/${name}`));
