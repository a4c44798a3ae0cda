import type { Snapshot } from '../job.ts';
import { fitLine } from '../readings/line-fit.ts';
import { rectangular, resolutionUncertainty, rootSumSquares } from '../readings/statistics.ts';
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

/** Runs of neighbouring snapshots in each of which the compressor runs; one snapshot alone is kept, to say so. */
const compressorRuns = (snapshots: readonly Snapshot[]): Occasion[] => {
  const runs: Snapshot[][] = [];
  let open = false;
  for (const snapshot of snapshots) {
    const on = snapshot.conditions.words.compressor === 'on';
    if (on && open) runs.at(-1)?.push(snapshot);
    else if (on) runs.push([snapshot]);
    open = on;
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
      occasions: (fitting) => compressorRuns(fitting.filter(({ readings }) => readings.has(id))),
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
        const scatter = Math.max(rootSumSquares([fromScatter, fromClock]), line.slopeError ?? 0);
        const accuracy = rectangular((estimates[0]?.gain ?? 0) * line.slope);
        return {
          taken: true,
          value: line.slope,
          unit,
          spread: { scatter, accuracy, total: rootSumSquares([scatter, accuracy]) },
          scatterFrom: 'resolution',
          count: occasion.length,
          tiers,
        };
      },
    });
  },
};
