import { corners, isCorner } from '../../core/corner.ts';
import {
  type AirData,
  fittedBy,
  layouts,
  type ServiceData,
  type Vehicle,
  type Weight,
} from '../../core/job.ts';
import type { Check } from '../../core/pack.ts';
import type { PreparedPacks } from '../../core/prepare/prepared-packs.ts';
import type { UnitName } from '../../core/readings/units.ts';
import type { Limits } from '../../core/readings/verdict.ts';
import { quoted } from '../quoted.ts';
import type { Sink } from '../sink.ts';
import { entriesOf, get, itemsOf, type Node, textOf } from '../yaml/tree.ts';
import { checkHint } from './check-hint.ts';
import { readHeights } from './read-heights.ts';
import { readQuantityNode } from './read-reading.ts';
import { readWires } from './read-wires.ts';

const limit = (node: Node | undefined, unit: UnitName, sink: Sink): number | null =>
  node === undefined ? null : (readQuantityNode(node, unit, sink)?.value ?? null);

const readLimits = (node: Node, unit: UnitName, sink: Sink): Limits => {
  const between = itemsOf(get(node, 'between'));
  const limits = {
    low: limit(between[0] ?? get(node, 'at-least'), unit, sink),
    high: limit(between[1] ?? get(node, 'at-most'), unit, sink),
  };
  if (limits.low !== null && limits.high !== null && limits.low > limits.high) {
    sink.add('wrong-value', node, 'the lower limit is above the upper one', 'write the smaller value first');
  }
  return limits;
};

const readServiceData = (node: Node, checks: readonly Check[], sink: Sink): ServiceData[] => {
  const checkNode = get(node, 'check');
  const id = textOf(checkNode);
  if (id === undefined || checkNode === undefined) return [];
  const check = checks.find((one) => one.id === id);
  if (!check) {
    const known = checks.filter(({ unit }) => unit !== null).map((one) => one.id);
    const inPacks = checks.map((one) => one.id);
    const message = `the job's packs have no check ${quoted(id)}`;
    sink.add('unknown-name', checkNode, message, checkHint(id, known, inPacks));
    return [];
  }
  const { unit } = check;
  if (unit === null) {
    sink.add(
      'wrong-value',
      checkNode,
      `"${id}" has no limits to replace`,
      'name a check that judges a reading',
    );
    return [];
  }
  if (!['between', 'at-least', 'at-most'].some((key) => get(node, key))) {
    sink.add('missing-key', node, 'no limit is given', 'add between: [low, high], at-least: or at-most:');
  }
  return [
    {
      check: id,
      of: textOf(get(node, 'of')) ?? null,
      limits: readLimits(node, unit, sink),
      weight: (textOf(get(node, 'weight')) ?? null) as Weight | null,
      source: textOf(get(node, 'source')) ?? '',
    },
  ];
};

const positive = (node: Node | undefined, unit: UnitName, sink: Sink): number | null => {
  const typed = node ? readQuantityNode(node, unit, sink) : null;
  if (!node || !typed || typed.value > 0) return typed?.value ?? null;
  sink.add('wrong-value', node, `${quoted(typed.text)} is not above zero`, `write it as the plate says it`);
  return null;
};

/** What the plates say of the air system. */
const readAir = (node: Node | undefined, sink: Sink): AirData => ({
  ratedPressure: positive(get(node, 'rated-pressure'), 'psi', sink),
  tankVolume: positive(get(node, 'tank-volume'), 'l', sink),
  ratedCurrent: positive(get(node, 'rated-current'), 'A', sink),
  sharedWithBrakes: textOf(get(node, 'shared-with-brakes')) === 'yes',
});

/** The vehicle, with what follows from its layout; words that the schema refuses are left at their usual values. */
export const readVehicle = (node: Node | undefined, prepared: PreparedPacks, sink: Sink): Vehicle => {
  const text = (key: string): string | null => textOf(get(node, key)) ?? null;
  const layoutText = text('layout');
  const layout = layouts.find((one) => one === layoutText) ?? 'four-corner-air';
  const fitted = itemsOf(get(node, 'fitted'))
    .map((item) => textOf(item) ?? '')
    .filter(isCorner);
  const sense = entriesOf(get(node, 'sensor-sense')).map(({ key, node: value }) => [key, textOf(value)]);
  const sensorSense = sense.length > 0 ? Object.fromEntries(sense) : null;
  const { checks, channels } = prepared;
  return {
    name: text('name') ?? '',
    layout,
    fitted: fitted.length > 0 ? corners.filter((corner) => fitted.includes(corner)) : fittedBy[layout],
    system: text('system') ?? '12 V',
    battery: text('battery'),
    charging: text('charging'),
    sensorSignal: text('sensor-signal') ?? 'analogue',
    sensorSense,
    sensorGainEqual: text('sensor-gain') === 'equal',
    serviceData: itemsOf(get(node, 'service-data')).flatMap((item) => readServiceData(item, checks, sink)),
    heights: readHeights(get(node, 'heights'), sensorSense, sink),
    wires: readWires(get(node, 'wires'), channels, sink),
    air: readAir(get(node, 'air'), sink),
    tankFitted: text('tank') !== 'not-fitted',
  };
};
