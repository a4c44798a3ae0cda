import { type Corner, isCorner } from '../../core/corner.ts';
import type { Vehicle } from '../../core/job.ts';
import { type HeightTable, heightBases, trendOf } from '../../core/readings/heights.ts';
import type { Sink } from '../sink.ts';
import { entriesOf, get, itemsOf, type Node, numberOf, textOf } from '../yaml/tree.ts';
import { readQuantityNode } from './read-reading.ts';

/** The measured pairs of one corner, sorted by volts; null where they are none, with the flaw reported. */
const readTable = (node: Node, sense: string | undefined, sink: Sink): HeightTable | null => {
  const volts = itemsOf(get(node, 'at')).map((item) => readQuantityNode(item, 'V', sink)?.value ?? null);
  const mmNode = get(node, 'mm');
  const heights = itemsOf(mmNode).map(numberOf);
  if (mmNode && volts.length !== heights.length) {
    const hint = 'give one height for each voltage';
    sink.add('wrong-value', mmNode, 'at and mm do not have as many entries', hint);
    return null;
  }
  const points = volts
    .flatMap((volt, index): [number, number][] => {
      const height = heights[index] ?? null;
      return volt === null || height === null ? [] : [[volt, height]];
    })
    .sort((a, b) => a[0] - b[0]);
  const from = heightBases.find((base) => base === textOf(get(node, 'from')));
  // Wrong numbers, too few points and an unknown base have been reported here or are by the schema.
  if (!mmNode || !from || points.length < 2 || points.length < volts.length) return null;
  const trend = trendOf(points);
  if (trend === null) {
    const hint = 'a sensor only rises or only falls with the body: look for a slip, or read the pairs again';
    sink.add('wrong-value', mmNode, 'these heights do not go one way as the volts rise', hint);
    return null;
  }
  if (sense !== undefined && sense !== trend) {
    const message = `these heights are ${trend} with the volts, and sensor-sense says ${sense}`;
    sink.add('wrong-value', mmNode, message, 'one of the two is the wrong way round');
    return null;
  }
  return { points, from };
};

/** Volts and millimetres that were measured together at corners. */
export const readHeights = (
  node: Node | undefined,
  sense: Vehicle['sensorSense'],
  sink: Sink,
): Vehicle['heights'] => {
  const tables: Partial<Record<Corner, HeightTable>> = {};
  for (const { key, node: corner } of entriesOf(node)) {
    const table = readTable(corner, isCorner(key) ? sense?.[key] : undefined, sink);
    if (isCorner(key) && table) tables[key] = table;
  }
  return tables;
};
