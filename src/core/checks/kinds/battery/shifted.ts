import type { Remark } from '../../../finding.ts';
import type { Tier } from '../../../pack.ts';
import { type Estimate, type Spread, spreadOfOne } from '../../../readings/estimate.ts';
import { rootSumSquares } from '../../../readings/statistics.ts';
import type { Outcome } from '../../outcome.ts';
import type { Temperature } from './temperature.ts';

/**
 * A reading against limits that move with temperature. What is not known of the temperature is not known of the
 * limits, so it widens the uncertainty of the comparison: first order, slope times the temperature's.
 */
export const againstShifted = (
  taken: { readonly estimate: Estimate; readonly count: number },
  temperature: Temperature,
  slope: number,
  tiers: readonly Tier[],
  remarks: readonly Remark[] = [],
): Outcome => {
  const own = spreadOfOne(taken.estimate);
  const accuracy = rootSumSquares([own.accuracy, slope * temperature.standard]);
  const { scatter, perReading, terms } = own;
  const spread: Spread = {
    scatter,
    accuracy,
    total: rootSumSquares([scatter, accuracy]),
    perReading,
    terms,
    beside: Math.abs(slope) * temperature.standard,
    // A temperature that was read is as good as it gets.
    besides:
      temperature.remark.kind === 'temperature-read'
        ? undefined
        : { standard: Math.abs(slope) * temperature.standard, from: 'temperature' },
  };
  return {
    taken: true,
    value: taken.estimate.value,
    unit: taken.estimate.unit,
    spread,
    scatterFrom: taken.estimate.scatterFrom,
    count: taken.count,
    tiers,
    remarks: [temperature.remark, ...remarks],
  };
};
