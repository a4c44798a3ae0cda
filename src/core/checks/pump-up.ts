import type { Snapshot } from '../job.ts';
import { fitLine } from '../readings/line-fit.ts';
import { rectangular, resolutionUncertainty, rootSumSquares } from '../readings/statistics.ts';
import { studentFactor } from '../readings/student.ts';
import type { UnitName } from '../readings/units.ts';
import type { Kind } from './kind.ts';
import { measuring, missing, type Occasion } from './measuring.ts';
import { readChannel } from './parameters.ts';
import { takeAll } from './take.ts';
import { readTiers, tierLines, tiersSchema } from './tiers.ts';

const ratePerMinute: Partial<Readonly<Record<UnitName, UnitName>>> = {
  psi: 'psi/min',
  bar: 'bar/min',
  kPa: 'kPa/min',
};

/**
 * Runs of neighbouring snapshots in each of which the compressor runs; one snapshot alone is kept, to say so. A
 * snapshot without the compressor ends a run even where it lacks the pressure.
 */
const compressorRuns = (snapshots: readonly Snapshot[], key: string): Occasion[] => {
  const runs: Snapshot[][] = [];
  let open = false;
  for (const snapshot of snapshots) {
    const on = snapshot.conditions.words.compressor === 'on';
    if (!on) open = false;
    if (!on || !snapshot.readings.has(key)) continue;
    if (open) runs.at(-1)?.push(snapshot);
    else runs.push([snapshot]);
    open = true;
  }
  return runs;
};

/**
 * How fast pressure rises: the slope of a straight line through the snapshots of one run.
 * A fixed error of the gauge cancels; its resolution, its scale and what the clock's resolution leaves open do not.
 */
export const pumpUp: Kind = {
  kind: 'pump-up',
  about: 'How fast the pressure rises over neighbouring snapshots in which the compressor runs.',
  properties: { of: { type: 'string' }, tiers: tiersSchema },
  required: ['of', 'tiers', 'in'],
  read: (raw, scope) => {
    const channel = readChannel(raw.of, ['of'], scope);
    const unit = ratePerMinute[channel?.unit ?? 'psi'] ?? 'psi/min';
    const tiers = readTiers(raw.tiers, unit, scope);
    const id = channel?.id ?? '';
    return measuring({
      unit,
      limits: tierLines(tiers, unit),
      tiers,
      subjects: () => [{ name: id, channels: [id] }],
      withoutOccasion: { why: 'too-few-snapshots', wants: 2, condition: 'compressor: on' },
      occasions: (fitting) => compressorRuns(fitting, id),
      measure: (occasion, _subject, scene, check) => {
        const first = occasion[0];
        const wants = { why: 'too-few-snapshots', wants: 2, condition: 'compressor: on' } as const;
        if (!first || occasion.length < 2) return missing(wants);
        const takes = occasion.map((snapshot) => takeAll(snapshot, [id], scene, check));
        const refused = takes.find((one) => !one.ok);
        if (refused && !refused.ok) return missing(refused.missing);
        const estimates = takes.flatMap((one) => (one.ok ? one.taken : [])).map(({ estimate }) => estimate);
        const minutes = occasion.map(({ stamp }) => (stamp.at - first.stamp.at) / 60_000);
        if ((minutes.at(-1) ?? 0) <= 0) return missing(wants);
        const line = fitLine(
          minutes,
          estimates.map(({ value }) => value),
        );
        const clock = Math.max(
          ...occasion.map(({ stamp }) => resolutionUncertainty(stamp.resolution / 60_000)),
        );
        const fromScatter = Math.max(...estimates.map(({ scatter }) => scatter)) / Math.sqrt(line.sxx);
        const fromClock = (Math.abs(line.slope) * clock) / Math.sqrt(line.sxx);
        const propagated = rootSumSquares([fromScatter, fromClock]);
        const fitted = line.slopeError ?? 0;
        const student = studentFactor(Math.max(1, occasion.length - 2));
        // The larger of what the readings leave open and what the points' own scatter says, each with its factor.
        const byFit = student * fitted > 2 * propagated;
        const scatter = byFit ? fitted : propagated;
        const accuracy = rectangular((estimates[0]?.gain ?? 0) * line.slope);
        return {
          taken: true,
          value: line.slope,
          unit,
          factor: byFit ? student : 2,
          spread: { scatter, accuracy, total: rootSumSquares([scatter, accuracy]) },
          scatterFrom: 'resolution',
          count: occasion.length,
          tiers,
        };
      },
    });
  },
};
