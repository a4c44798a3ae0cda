import type { Corner } from '../../../../src/core/corner.ts';
import type { Said } from '../model/driver.ts';
import { goodGain } from '../model/vehicle.ts';
import { beforeTheKey, nightAtRest } from './at-rest.ts';
import { cranking, type Depth, keyOn, onCommand, pumping, running } from './keyed.ts';
import { atCorners, braces, shotText, type Visit } from './shot.ts';

/** What the maker's figures and the vehicle's own measured pairs say, where the file has them. */
const knownOf = (visit: Visit): string[] => {
  const { car } = visit;
  const { known, height, sensor, compressor, tank } = car;
  const good = (corner: Corner, mm: number): number =>
    5 * (sensor[corner].centre + goodGain(car, corner) * mm);
  const pair = (corner: Corner): string => {
    const ends = [-40, 40].sort((a, b) => good(corner, a) - good(corner, b));
    const at = ends.map((mm) => `${good(corner, mm).toFixed(2)} V`).join(', ');
    const mm = ends.map((one) => (height[corner].centre + one).toFixed(0)).join(', ');
    return `    ${corner}: {at: [${at}], mm: [${mm}], from: wheel-centre}`;
  };
  const target = (corner: Corner): string => {
    const { centre } = height[corner];
    const ends = `[${(centre - 15).toFixed(0)} mm, ${(centre + 15).toFixed(0)} mm]`;
    return `    - {check: body-heights/tape-target, of: ${corner}, between: ${ends}, source: workshop manual}`;
  };
  const service = [
    ...(known.band
      ? ['    - {check: position-signals/ride-band, between: [2.00 V, 3.00 V], source: workshop manual}']
      : []),
    ...(known.targets ? car.fitted.map(target) : []),
  ];
  const air =
    known.plate && car.layout === 'four-corner-air'
      ? [
          `  air: {rated-pressure: ${compressor.rated.toFixed(0)} psi, tank-volume: ${tank.volume} l, rated-current: ${compressor.amps.toFixed(0)} A}`,
        ]
      : [];
  const sense = atCorners(visit, (corner) => (goodGain(car, corner) > 0 ? 'rising' : 'falling'));
  return [
    ...(known.sense ? [`  sensor-sense: ${sense}`, '  sensor-gain: equal'] : []),
    ...(known.heights ? ['  heights:', ...car.fitted.map(pair)] : []),
    ...air,
    ...(service.length > 0 ? ['  service-data:', ...service] : []),
  ];
};

const headOf = (number: number, visit: Visit): string[] => {
  const { car } = visit;
  return [
    'worksheet: 1',
    `job: F${String(number).padStart(5, '0')}`,
    'title: One vehicle of a simulated fleet',
    'opened: 2026-03-02T20:30',
    'zone: UTC',
    'status: open',
    'vehicle:',
    `  name: Vehicle ${number}`,
    `  layout: ${car.layout}`,
    `  battery: ${car.battery.kind}`,
    `  charging: ${car.charging.rests === null ? 'fixed' : 'managed'}`,
    ...knownOf(visit),
  ];
};

/** What is told beside the readings. */
export interface Told {
  readonly says: Said;
  readonly work: readonly string[];
}

/** A job file as a technician types it. */
export const jobText = (number: number, visit: Visit, { says, work }: Told, depth: Depth): string => {
  const first = [keyOn(visit, depth), cranking(visit), running(visit, depth)];
  const moved = depth === 'full sheet' ? onCommand(visit) : { shots: [], log: [] };
  const shots =
    depth === 'full sheet'
      ? [...nightAtRest(visit), ...beforeTheKey(visit), ...moved.shots, ...first, ...pumping(visit)]
      : first;
  const spoken = Object.entries(says);
  return `${[
    ...headOf(number, visit),
    ...(spoken.length > 0 ? [`symptoms: ${braces(spoken)}`] : []),
    ...(work.length > 0 ? [`recent-work: [${work.join(', ')}]`] : []),
    'snapshots:',
    ...shots.map(shotText),
    'log:',
    '  - {at: 2026-03-03T07:05, did: completed, what: verify-complaint}',
    ...moved.log,
  ].join('\n')}\n`;
};
