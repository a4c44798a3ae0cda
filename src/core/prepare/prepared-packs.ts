import { fittedBy, type Layout, layouts, type Vehicle } from '../job.ts';
import {
  type Ask,
  type Channel,
  type Check,
  type Component,
  cautionTexts,
  type DangerTerms,
  type HoldPoint,
  type Pack,
  type Step,
  type Test,
} from '../pack.ts';
import type { PackRef } from '../worksheet-parts.ts';
import { acrossPacks } from './across-packs.ts';
import { deepFreeze } from './deep-freeze.ts';
import { type Disagreement, disagreementsOf } from './disagreements.ts';
import { type PreparedVehicle, prepareVehicle } from './prepared-vehicle.ts';

/**
 * Some packs with everything that follows from them alone, whatever job they are used on. Plain data, frozen all the
 * way down: reading and judging a job looks things up in it and changes nothing.
 */
export interface PreparedPacks {
  /** In the job's order. */
  readonly packs: readonly Pack[];
  readonly refs: readonly PackRef[];
  /** What keeps the packs from being used together; empty where they agree. */
  readonly disagreements: readonly Disagreement[];
  readonly components: readonly Component[];
  readonly channels: readonly Channel[];
  /** Every channel by its base name; packs that share one agree on it. */
  readonly channelById: ReadonlyMap<string, Channel>;
  readonly checks: readonly Check[];
  /** Steps and hold points with the texts of their cautions in place of the names. */
  readonly steps: readonly Step[];
  /** The steps that are made for each confirmed fault, and for each component that was worked on; null without. */
  readonly repair: Step | null;
  readonly retest: Step | null;
  /** Readings that hold the release whatever the job touches; null where every wanted one does. */
  readonly always: ReadonlySet<string> | null;
  readonly holdPoints: readonly HoldPoint[];
  /** Names and ids of the steps. */
  readonly stepNames: ReadonlySet<string>;
  readonly tests: readonly Test[];
  /** What each danger forbids, by its check or the name of what a job states, with the texts of its cautions. */
  readonly dangers: ReadonlyMap<string, DangerTerms>;
  readonly asks: readonly Ask[];
  /** Vehicles with the usual corners of their layout. */
  readonly vehicles: readonly PreparedVehicle[];
}

const withCautionTexts = <T extends { readonly cautions: readonly string[] }>(
  one: T,
  { cautions }: Pack,
): T => ({
  ...one,
  cautions: cautionTexts(one.cautions, cautions),
});

const withStepCautions = (step: Step, pack: Pack): Step => ({
  ...withCautionTexts(step, pack),
  cautionsFor: step.cautionsFor.map((one) => withCautionTexts(one, pack)),
});

/** Dangers of checks; where a pack names one itself, that counts. */
const dangersOf = (packs: readonly Pack[]): ReadonlyMap<string, DangerTerms> =>
  new Map([
    ...packs.flatMap((pack) =>
      pack.checks.flatMap(({ id, danger }) =>
        danger ? [[id, withCautionTexts(danger, pack)] as const] : [],
      ),
    ),
    ...packs.flatMap((pack) =>
      pack.dangers.map((danger) => [danger.of, withCautionTexts(danger, pack)] as const),
    ),
  ]);

/**
 * Works out everything that follows from some packs alone, and freezes it together with the packs. Pure: nothing is
 * remembered, so whoever reads many jobs with the same packs keeps the result and hands it on.
 *
 * @param given resolved packs, in the job's order
 * @param ahead layouts to prepare vehicles for. A vehicle of another layout, or with other corners fitted, is worked
 *   out when its job is judged, which is quicker where only one job is.
 */
export const preparePacks = (given: readonly Pack[], ahead: readonly Layout[] = layouts): PreparedPacks => {
  const packs = acrossPacks(given);
  const channels = packs.flatMap((pack) => pack.channels);
  const channelById = new Map(channels.map((channel) => [channel.id, channel]));
  const all = packs.flatMap((pack) => pack.steps.map((step) => withStepCautions(step, pack)));
  const steps = all.filter(({ each }) => each === null);
  const always = packs.flatMap((pack) => pack.always ?? []);
  return deepFreeze({
    packs,
    refs: packs.map(({ id, version, sha256 }) => ({ id, version, sha256 })),
    disagreements: disagreementsOf(packs),
    components: packs.flatMap((pack) => pack.components),
    channels,
    channelById,
    checks: packs.flatMap((pack) => pack.checks),
    steps,
    repair: all.find(({ each }) => each === 'fault') ?? null,
    retest: all.find(({ each }) => each === 'work') ?? null,
    always: packs.some((pack) => pack.always !== null) ? new Set(always) : null,
    holdPoints: packs.flatMap((pack) => pack.holdPoints.map((point) => withCautionTexts(point, pack))),
    stepNames: new Set(steps.flatMap(({ name, id }) => [name, id])),
    tests: packs.flatMap((pack) => pack.tests),
    dangers: dangersOf(packs),
    asks: packs.flatMap((pack) => pack.asks),
    vehicles: ahead.map((layout) => prepareVehicle(packs, channelById, { layout, fitted: fittedBy[layout] })),
  });
};

/** What the packs do on a vehicle: as prepared where its corners are the usual ones, else worked out now. */
export const preparedFor = (
  { packs, channelById, vehicles }: PreparedPacks,
  { layout, fitted }: Pick<Vehicle, 'layout' | 'fitted'>,
): PreparedVehicle =>
  vehicles.find(
    (one) =>
      one.layout === layout &&
      one.fitted.length === fitted.length &&
      one.fitted.every((corner, place) => corner === fitted[place]),
  ) ?? prepareVehicle(packs, channelById, { layout, fitted });
