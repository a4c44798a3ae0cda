import { type CheckPlan, planCheck } from '../checks/check-plan.ts';
import { kindOf } from '../checks/kinds/index.ts';
import type { Corner } from '../corner.ts';
import type { Layout, Vehicle } from '../job.ts';
import type { Channel, Pack } from '../pack.ts';
import { type SuspectModel, suspectModel } from '../suspects/suspect-model.ts';

/** What some packs do on vehicles of one layout with some corners fitted. Plain data. */
export interface PreparedVehicle {
  readonly layout: Layout;
  readonly fitted: readonly Corner[];
  /** Plans of the checks that are judged before the steps are known, and of those that are judged after. */
  readonly early: readonly CheckPlan[];
  readonly late: readonly CheckPlan[];
  readonly suspects: SuspectModel;
}

/** Works out what packs do on vehicles of one layout with some corners fitted. */
export const prepareVehicle = (
  packs: readonly Pack[],
  channels: ReadonlyMap<string, Channel>,
  { layout, fitted }: Pick<Vehicle, 'layout' | 'fitted'>,
): PreparedVehicle => {
  const shape = { layout, fitted, channels };
  const early: CheckPlan[] = [];
  const late: CheckPlan[] = [];
  for (const check of packs.flatMap((pack) => pack.checks)) {
    const kind = kindOf(check);
    const tiers = kind.tiers(check.parameters);
    const plan = planCheck(check, tiers, layout, (wasRead) =>
      kind.subjects(check.parameters, shape, wasRead),
    );
    (kind.afterSteps ? late : early).push(plan);
  }
  return { layout, fitted, early, late, suspects: suspectModel(packs, shape) };
};
