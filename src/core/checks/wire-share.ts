import type { Remark } from '../finding.ts';
import { type Estimate, spreadOfOne } from '../readings/estimate.ts';
import { convert } from '../readings/units.ts';
import { wireDrop } from '../readings/wire.ts';
import type { CheckContext } from './check-context.ts';

/** What copper alone drops, beside a reading of the drop: where the job describes the wire that was read along. */
export const wireShare = (channel: string, read: Estimate, context: CheckContext): Remark[] => {
  const wire = context.job.vehicle.wires.get(channel);
  if (!wire) return [];
  const { volts: copper, standard } = wireDrop(wire);
  const own = convert(spreadOfOne(read).total, read.unit, 'V');
  return [
    {
      kind: 'wire',
      copper,
      current: wire.current.value,
      celsius: wire.celsius,
      leaves: convert(read.value, read.unit, 'V') - copper,
      expanded: 2 * Math.hypot(own, standard),
    },
  ];
};
