import type { Remark } from '../../finding.ts';
import type { Tier } from '../../pack.ts';
import { trendOf } from '../../readings/trend.ts';
import { toldSchema } from '../kind.ts';
import { measuring } from '../measuring.ts';
import type { Measured } from '../measuring-parts.ts';
import { missing, newestOf } from '../outcome.ts';
import {
  type FillParts,
  fillProperties,
  gainOf,
  leastGain,
  readFillParts,
  runningRole,
} from '../over-time/fill-rate.ts';
import { pressureRate, type RateUnits } from '../over-time/rate-units.ts';
import { runsOf, takePoints } from '../over-time/runs.ts';
import { inUnit, trendOutcome, trendPoints } from '../over-time/trend-outcome.ts';
import { readChannel, readQuantity } from '../parameters.ts';
import { readTiers, tierLines, tiersSchema } from '../tiers.ts';

const wants = { why: 'too-few-snapshots', wants: 2, condition: 'compressor: on' } as const;

interface PumpUp extends Measured {
  readonly of: string;
  readonly units: RateUnits;
  /** The pressure to which the time from zero is told; null where the pack names none. */
  readonly full: number | null;
  /** What the limit depends on; null where it is one for all vehicles. */
  readonly fill: FillParts | null;
}

/**
 * How fast pressure rises: the slope of a straight line through the snapshots of one run.
 * A fixed error of the gauge cancels; its resolution, its scale and what the clock's resolution leaves open do not.
 */
export const pumpUp = measuring<PumpUp>({
  kind: 'pump-up',
  about: 'How fast the pressure rises over neighbouring snapshots in which the compressor runs.',
  properties: {
    of: { type: 'string' },
    tiers: tiersSchema,
    /** The pressure to which the time from zero is told. */
    full: toldSchema,
    ...fillProperties,
  },
  required: ['of', 'tiers', 'in'],
  read: (raw, scope) => {
    const channel = readChannel(raw.of, ['of'], scope);
    const units = pressureRate(channel, 'min', scope);
    return {
      unit: units.rate,
      units,
      of: channel?.id ?? '',
      tiers: readTiers(raw.tiers, units.rate, scope),
      fill: readFillParts(raw, scope),
      full: raw.full === undefined ? null : readQuantity(raw.full, units.of, ['full'], scope),
    };
  },
  limits: ({ tiers, units, full }) => [
    ...tierLines(tiers, units.rate),
    ...(full === null ? [] : [`tells the time from zero to ${full} ${units.of}`]),
  ],
  subjects: ({ of }) => [{ name: of, channels: [of] }],
  withoutOccasion: () => wants,
  // A snapshot without the compressor ends a run even where it lacks the pressure.
  occasions: (fitting, _subject, _context, { of }) =>
    runsOf(fitting, of, ({ conditions, readings }) => {
      if (conditions.words.compressor !== 'on') return 'breaks';
      return readings.has(of) ? 'point' : 'passes';
    }),
  measure: (occasion, _subject, context, check, { of, units, tiers, full, fill }) => {
    const taken = takePoints(occasion, of, context, check, wants.wants, wants.condition);
    if (!taken.ok) return missing(taken.missing.why === 'too-few-points' ? wants : taken.missing);
    const trend = trendOf(
      trendPoints(taken.points, 'min', ({ estimate }) => {
        const pressure = inUnit(estimate, units.of);
        return { value: pressure.value, terms: [{ estimate: pressure, sensitivity: 1 }] };
      }),
    );
    const remarks: Remark[] =
      full === null || trend.slope <= 0
        ? []
        : [{ kind: 'time-to-fill', to: full, unit: units.of, minutes: full / trend.slope }];
    if (fill === null) return trendOutcome(trend.slope, trend, units.rate, 'min', tiers, remarks);
    const [first] = runsOf(
      context.job.snapshots.filter(({ state }) => check.states.includes(state)),
      of,
      runningRole(of),
    );
    const earlier =
      first === undefined || newestOf(first) === newestOf(occasion)
        ? null
        : gainOf(first, of, units, context, check);
    const own: Tier[] = [];
    for (const tier of tiers) {
      const least = leastGain(fill, tier.limits.low ?? 0, earlier, context);
      if (!least.ok) return missing(least.missing);
      own.push({ ...tier, limits: { low: least.gain, high: null } });
      if (own.length === 1) remarks.push({ kind: 'fill-limit', by: least.by });
    }
    return trendOutcome(trend.slope, trend, units.rate, 'min', own, remarks);
  },
});
