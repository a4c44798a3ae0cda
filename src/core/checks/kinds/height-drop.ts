import type { Remark } from '../../finding.ts';
import type { Snapshot } from '../../job.ts';
import { kelvin } from '../../readings/air.ts';
import { trendOf } from '../../readings/trend.ts';
import type { Kind } from '../kind.ts';
import { measuring } from '../measuring.ts';
import { missing } from '../outcome.ts';
import { readChannel } from '../parameters.ts';
import { heightRate } from '../rate-units.ts';
import { disturbedBetween, type Role, runsOf, takePoints } from '../runs.ts';
import { type Subject, subjectsOf } from '../subjects.ts';
import { readTiers, tierLines, tiersSchema } from '../tiers.ts';
import { inUnit, trendOutcome, trendPoints } from '../trend-outcome.ts';

/** Two will do: their slope is as good as the tape, and the scatter about a line is not asked for. */
const leastPoints = 2;

/** Cooling by this much, °C, is told: it takes some two per cent of the air column. */
const muchCooler = 5;

/** In other states the vehicle may have levelled itself, unless that was switched off. */
const roleIn =
  (fitting: readonly Snapshot[], key: string) =>
  (snapshot: Snapshot): Role => {
    if (fitting.includes(snapshot)) return snapshot.readings.has(key) ? 'point' : 'passes';
    return snapshot.conditions.words.levelling === 'disabled' && snapshot.state !== 'driving'
      ? 'passes'
      : 'breaks';
  };

/** A load or a floor that is not the one before moves the body without any air. */
const stoodOtherwise = (before: Snapshot, after: Snapshot): boolean =>
  (['load', 'floor'] as const).some((name) => {
    const [was, is] = [before.conditions.words[name], after.conditions.words[name]];
    return was !== undefined && is !== undefined && was !== is;
  });

/** An air column at constant load shrinks as its absolute temperature does. */
const coolingRemark = (first: Snapshot, last: Snapshot): Remark[] => {
  const from = first.conditions.air?.value;
  const to = last.conditions.air?.value;
  if (from === undefined || to === undefined || from - to < muchCooler || kelvin(to) <= 0) return [];
  return [{ kind: 'air-column', percent: (100 * (from - to)) / kelvin(from), from, to }];
};

/** How fast each corner sinks at rest: the slope of a straight line through two readings of its height or more. */
export const heightDrop: Kind = {
  kind: 'height-drop',
  about: 'How fast each corner loses height over neighbouring snapshots in which the vehicle stands.',
  properties: { of: { type: 'string' }, tiers: tiersSchema },
  required: ['of', 'tiers', 'in'],
  read: (raw, scope) => {
    const channel = readChannel(raw.of, ['of'], scope);
    const units = heightRate(channel, scope);
    const tiers = readTiers(raw.tiers, units.rate, scope);
    const keyOf = ({ channels }: Subject): string => channels[0] ?? '';
    return measuring({
      unit: units.rate,
      limits: tierLines(tiers, units.rate),
      tiers,
      subjects: (shape, wasRead) => subjectsOf(shape, wasRead, channel?.id ?? ''),
      occasions: (fitting, subject, scene) =>
        runsOf(
          scene.job.snapshots,
          keyOf(subject),
          roleIn(fitting, keyOf(subject)),
          (before, after) =>
            stoodOtherwise(before, after) || disturbedBetween(scene, subject.channels, before, after),
        ),
      withoutOccasion: (_fitting, { channels }, { states }) => ({ why: 'no-reading', states, channels }),
      measure: (occasion, subject, scene, check) => {
        const taken = takePoints(occasion, keyOf(subject), scene, check, leastPoints, null);
        if (!taken.ok) return missing(taken.missing);
        const { points } = taken;
        const trend = trendOf(
          trendPoints(points, 'h', ({ estimate }) => {
            const height = inUnit(estimate, units.of);
            return { value: height.value, terms: [{ estimate: height, sensitivity: 1 }] };
          }),
        );
        const [first, last] = [points[0], points.at(-1)];
        const remarks = first && last ? coolingRemark(first.snapshot, last.snapshot) : [];
        return trendOutcome(-trend.slope, trend, units.rate, 'h', tiers, remarks);
      },
    });
  },
};
