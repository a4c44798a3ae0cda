import type { Leads } from '../../core/job.ts';
import type { Channel } from '../../core/pack.ts';
import { quantityOf } from '../../core/readings/units.ts';
import type { Sink } from '../sink.ts';
import { get, type Node, textOf } from '../yaml/tree.ts';

/** Whether a channel is read between two leads. */
export const hasLeads = ({ unit }: Channel): boolean =>
  quantityOf(unit) === 'voltage' || quantityOf(unit) === 'resistance';

/** Where both leads of the meter were; an end that is missing the schema tells. */
export const readLeads = (node: Node | undefined, channel: Channel, sink: Sink): Leads | null => {
  if (node === undefined) return null;
  const from = textOf(get(node, 'from'));
  const to = textOf(get(node, 'to'));
  if (!hasLeads(channel)) {
    const hint = 'take at: out; only volts and ohms are read between two leads';
    sink.add('bad-reading', node, `${channel.id} is not read between two leads`, hint);
  }
  if (from === undefined || to === undefined) return null;
  if (from === to) {
    const hint = 'write where each of the two was';
    sink.add('bad-reading', node, 'both leads are said to be at one place', hint);
  }
  return { from, to };
};
