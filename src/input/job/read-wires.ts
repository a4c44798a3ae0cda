import type { Vehicle } from '../../core/job.ts';
import type { Channel } from '../../core/pack.ts';
import type { TypedValue } from '../../core/readings/parse-quantity.ts';
import { quantityOf, type UnitName } from '../../core/readings/units.ts';
import { parseWireSize, type Wire } from '../../core/readings/wire.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { didYouMean } from '../suggest.ts';
import { type Entry, entriesOf, get, type Node, textOf } from '../yaml/tree.ts';
import { readQuantityNode } from './read-reading.ts';

/** The temperature that tables of wire are for, taken where the job states none. */
const usualCelsius = 20;

const isDrop = ({ unit, per }: Channel): boolean => quantityOf(unit) === 'voltage' && per === 'vehicle';

/** Whether a wire's key is a channel that reads volts once for the vehicle; what else it is, is reported. */
const checkChannel = ({ key, keyStart }: Entry, channels: readonly Channel[], sink: Sink): boolean => {
  const channel = channels.find(({ id }) => id === key);
  if (channel && isDrop(channel)) return true;
  const hint = 'name a channel that reads a drop, such as feed-drop';
  if (channel) {
    sink.add('wrong-value', keyStart, `${key} does not read the volts that a wire drops`, hint);
    return false;
  }
  const known = channels.filter(isDrop).map(({ id }) => id);
  sink.add('unknown-channel', keyStart, `no channel is called ${quoted(key)}`, didYouMean(key, known, hint));
  return false;
};

const readArea = (node: Node | undefined, sink: Sink): number | null => {
  const text = textOf(node);
  if (node === undefined || text === undefined) return null;
  const size = parseWireSize(text);
  if (size.ok) return size.area;
  const { code, message, hint, typed } = size.fault;
  sink.add(code, node, message, typed ? didYouMean(typed.word, typed.known, hint) : hint);
  return null;
};

const readPositive = (node: Node | undefined, unit: UnitName, sink: Sink): TypedValue | null => {
  const typed = node ? readQuantityNode(node, unit, sink) : null;
  if (!node || !typed || typed.value > 0) return typed;
  sink.add('wrong-value', node, `${quoted(typed.text)} is not above zero`, `write it like 4 ${unit}`);
  return null;
};

const readWire = (node: Node, sink: Sink): Wire | null => {
  const area = readArea(get(node, 'size'), sink);
  const length = readPositive(get(node, 'length'), 'm', sink);
  const current = readPositive(get(node, 'current'), 'A', sink);
  const warm = get(node, 'temperature');
  const celsius = warm ? readQuantityNode(warm, '°C', sink)?.value : usualCelsius;
  if (area === null || !length || !current || celsius === undefined) return null;
  return { area, length, current, celsius };
};

/** The wires whose drop is read, by channel: size, length, and the current of the load that was on. */
export const readWires = (
  node: Node | undefined,
  channels: readonly Channel[],
  sink: Sink,
): Vehicle['wires'] =>
  new Map(
    entriesOf(node).flatMap((entry): [string, Wire][] => {
      const known = checkChannel(entry, channels, sink);
      const wire = readWire(entry.node, sink);
      return known && wire ? [[entry.key, wire]] : [];
    }),
  );
