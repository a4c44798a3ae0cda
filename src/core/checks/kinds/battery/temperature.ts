import type { Remark } from '../../../finding.ts';
import type { Snapshot } from '../../../job.ts';
import { estimate, spreadOfOne } from '../../../readings/estimate.ts';
import { instrumentNamed } from '../../../readings/instruments.ts';
import { rectangular, rootSumSquares } from '../../../readings/statistics.ts';
import { convert, convertSpan } from '../../../readings/units.ts';
import type { CheckContext } from '../../check-context.ts';
import { estimateOf } from '../../take.ts';

export interface Temperature {
  readonly celsius: number;
  /** Standard uncertainty, °C. */
  readonly standard: number;
  readonly remark: Remark;
}

/** How far a battery's temperature may be from the air's under a bonnet, and from 25 °C where nothing was read: ± 15 °C. */
const unknownHalfWidth = 15;
const assumed = 25;

/** The battery's temperature: read, else the air's with ± 15 °C, else 25 °C ± 15. */
export const batteryTemperature = (
  snapshot: Snapshot,
  channel: string,
  context: CheckContext,
): Temperature => {
  const reading = snapshot.readings.get(channel);
  if (reading?.kind === 'values') {
    const taken = estimateOf(context, channel, reading.values, reading.by);
    const celsius = convert(taken.value, taken.unit, '°C');
    const standard = convertSpan(spreadOfOne(taken).total, taken.unit, '°C');
    return { celsius, standard, remark: { kind: 'temperature-read', celsius } };
  }
  const { air } = snapshot.conditions;
  const spare = rectangular(unknownHalfWidth);
  if (!air)
    return { celsius: assumed, standard: spare, remark: { kind: 'temperature-assumed', celsius: assumed } };
  const read = estimate([air], '°C', instrumentNamed(context.job.instruments, 'thermometer'));
  return {
    celsius: read.value,
    standard: rootSumSquares([spreadOfOne(read).total, spare]),
    remark: { kind: 'temperature-from-air', celsius: read.value },
  };
};
