import { type Corner, corners } from '../../corner.ts';
import type { Weight } from '../../job.ts';
import type { Check } from '../../pack.ts';
import { columnChange } from '../../readings/air-column.ts';
import {
  type ClosedRates,
  type MigrationWeights,
  type MigrationWord,
  migrationWeights,
  migrationWords,
} from '../../readings/air-migration.ts';
import { type Motion, motionWeights } from '../../readings/contrasts.ts';
import { formatNumber } from '../../readings/format-number.ts';
import type { Uncertain } from '../../readings/thirds.ts';
import { type Trend, trendOf } from '../../readings/trend.ts';
import type { CheckContext } from '../check-context.ts';
import { readCornerChannel } from '../height-sources.ts';
import { quantitySchema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, type Occasion, type Outcome } from '../outcome.ts';
import { closedRole, corrected, uncorrected } from '../over-time/closed-air.ts';
import { likeConditions } from '../over-time/like-conditions.ts';
import { pressureRate, type RateUnits } from '../over-time/rate-units.ts';
import { disturbedBetween, type Point, runsOf, takePoints } from '../over-time/runs.ts';
import { inUnit, trendPoints } from '../over-time/trend-outcome.ts';
import { readChannel, readQuantity } from '../parameters.ts';
import { laidAnew } from '../standing-heights.ts';
import type { Subject } from '../subjects.ts';
import { airTemperatures, localPressures } from '../surrounding-air.ts';
import { readWords, saysByWordSchema, type WordParts, wordOutcome } from '../word-outcome.ts';

interface Parts extends Measured {
  readonly tank: string;
  readonly heights: string;
  readonly units: RateUnits;
  readonly limits: { readonly tank: number; readonly corner: number };
  /** Effective length of an air column, mm. */
  readonly column: number;
  readonly weight: Weight;
  readonly words: WordParts<MigrationWord>;
}

const leastPoints = 2;
const condition = 'air-system: closed';

const rateOf = ({ slope, factor, spread }: Trend): Uncertain => ({
  value: slope,
  standard: (factor * spread.total) / 2,
});

/** A motion of the body with time, mm an hour; the mean height brought to the air temperature of the first reading. */
const motionTrend = (
  motion: Motion,
  byCorner: Readonly<Record<Corner, readonly Point[]>>,
  parts: Parts,
  context: CheckContext,
): Trend => {
  const points = byCorner.LF;
  const air = airTemperatures(
    points.map(({ snapshot }) => snapshot),
    context,
  );
  const weights = motionWeights[motion];
  return trendOf(
    trendPoints(points, 'h', (_point, index) => {
      const terms = corners.flatMap((corner) => {
        const own = byCorner[corner][index];
        return own ? [{ estimate: laidAnew(inUnit(own.estimate, 'mm')), sensitivity: weights[corner] }] : [];
      });
      const value = terms.reduce((sum, { estimate, sensitivity }) => sum + sensitivity * estimate.value, 0);
      const from = air?.[0]?.value;
      const to = air?.[index]?.value;
      const warmth =
        motion === 'heave' && from !== undefined && to !== undefined
          ? columnChange(parts.column, from, to)
          : 0;
      return { value: value - warmth, terms };
    }),
  );
};

const measure = (
  occasion: Occasion,
  { name: corner }: Subject,
  context: CheckContext,
  check: Check,
  parts: Parts,
): Outcome => {
  const tank = takePoints(occasion, parts.tank, context, check, leastPoints, condition);
  if (!tank.ok) return missing(tank.missing);
  const byCorner: Partial<Record<Corner, readonly Point[]>> = {};
  for (const corner of corners) {
    const taken = takePoints(occasion, `${parts.heights}.${corner}`, context, check, leastPoints, condition);
    if (!taken.ok) return missing(taken.missing);
    byCorner[corner] = taken.points;
  }
  const { LF, RF, LR, RR } = byCorner;
  if (!LF || !RF || !LR || !RR) throw new Error('migration looks at four corners');
  const snapshots = tank.points.map(({ snapshot }) => snapshot);
  const air = {
    local: localPressures(snapshots, context),
    temperatures: airTemperatures(snapshots, context),
  };
  const pressure = corrected(uncorrected(tank.points, parts.units.of, air), air);
  const motion = (which: Motion): Uncertain => rateOf(motionTrend(which, { LF, RF, LR, RR }, parts, context));
  const rates = {
    tank: rateOf(pressure),
    heave: motion('heave'),
    roll: motion('roll'),
    pitch: motion('pitch'),
  };
  const weights = migrationWeights(rates, parts.limits);
  // Elsewhere the body only leans with the corner that moves.
  const own = isMover(corner as Corner, rates, weights) ? weights : stillOnly;
  return wordOutcome(own, () => parts.weight, parts.words, [
    {
      kind: 'closed-rates',
      tank: rates.tank.value,
      unit: parts.units.rate,
      heave: rates.heave.value,
      roll: rates.roll.value,
      pitch: rates.pitch.value,
    },
  ]);
};

const stillOnly: MigrationWeights = {
  none: 1,
  'tank-to-corner': 0,
  'corner-to-tank': 0,
  'corner-to-corner': 0,
};

/** How far a corner goes up by the motions of a rigid body. */
const riseAt = (corner: Corner, { heave, roll, pitch }: ClosedRates): number =>
  heave.value + 4 * motionWeights.roll[corner] * roll.value + 4 * motionWeights.pitch[corner] * pitch.value;

/** Whether a corner is the one that air goes to or comes from: it moves furthest that way. */
const isMover = (corner: Corner, rates: ClosedRates, weights: MigrationWeights): boolean => {
  const rises = corners.map((one) => riseAt(one, rates));
  const own = riseAt(corner, rates);
  const top = own >= Math.max(...rises);
  const bottom = own <= Math.min(...rises);
  const most = Math.max(weights['tank-to-corner'], weights['corner-to-tank'], weights['corner-to-corner']);
  if (most === weights['tank-to-corner']) return top;
  return most === weights['corner-to-tank'] ? bottom : top || bottom;
};

const keysOf = ({ tank, heights }: Parts): readonly string[] => [
  tank,
  ...corners.map((corner) => `${heights}.${corner}`),
];

export const migration = measuring<Parts>({
  kind: 'migration',
  about: 'Whether air of a closed system goes from the tank to a corner, back, or from corner to corner.',
  properties: {
    of: { type: 'string' },
    heights: { type: 'string' },
    /** The least change in an hour that counts, of the tank and at a corner. */
    'tank-changes': quantitySchema,
    'corner-moves': quantitySchema,
    'air-column': quantitySchema,
    weight: { enum: ['hold', 'look', 'note'] },
    'says-by-word': saysByWordSchema,
  },
  required: ['of', 'heights', 'tank-changes', 'corner-moves', 'air-column', 'weight', 'in'],
  read: (raw, scope) => {
    const channel = readChannel(raw.of, ['of'], scope);
    const units = pressureRate(channel, 'h', scope);
    const weight = raw.weight as Weight;
    const words = readWords(raw['says-by-word'], migrationWords, ['none'], weight, scope);
    return {
      unit: null,
      tiers: [words.plain],
      tank: channel?.id ?? '',
      heights: readCornerChannel(raw.heights, 'heights', 'mm', scope)?.id ?? '',
      units,
      limits: {
        tank: readQuantity(raw['tank-changes'], units.rate, ['tank-changes'], scope),
        corner: readQuantity(raw['corner-moves'], 'mm/h', ['corner-moves'], scope),
      },
      column: readQuantity(raw['air-column'], 'mm', ['air-column'], scope),
      weight,
      words,
    };
  },
  limits: ({ weight, limits, units }) => [
    `${weight}: the tank changes by over ${formatNumber(limits.tank)} ${units.rate} and the body the other way, or the body leans while the tank stays; a corner counts from ${formatNumber(limits.corner)} mm/h`,
  ],
  subjects: (parts, { fitted }) =>
    corners.every((corner) => fitted.includes(corner))
      ? corners.map((corner) => ({ name: corner, channels: keysOf(parts) }))
      : [],
  occasions: (fitting, { channels }, context, { tank }) => {
    const role = closedRole(fitting, tank);
    return runsOf(
      context.job.snapshots,
      tank,
      (snapshot) => {
        const is = role(snapshot);
        return is === 'point' && !channels.every((key) => snapshot.readings.has(key)) ? 'passes' : is;
      },
      (before, after) =>
        !likeConditions(before, after, ['load', 'floor', 'heights-from']) ||
        disturbedBetween(context, channels, before, after),
    );
  },
  withoutOccasion: (_fitting, { channels }, { states }) => ({ why: 'no-reading', states, channels }),
  measure,
});
