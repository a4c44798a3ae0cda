import { type Corner, corners, sides } from '../../../../src/core/corner.ts';
import { fillsInTime } from './air.ts';
import type { Draw } from './draw.ts';
import { levellingOf } from './levelling.ts';
import type { Member } from './member.ts';
import type { PerCorner } from './per-corner.ts';
import { boots } from './rails.ts';
import { standAt } from './stand.ts';
import { batteryOhms, postVolts } from './supply.ts';
import type { Car } from './vehicle.ts';

/** What a driver says, part by part; nothing of what was not said. */
export type Said = Partial<Record<'where' | 'sits' | 'when' | 'moves' | 'rides' | 'noise', string>>;

/** mm off level that a driver sees in passing. */
const seen = 25;

const areas: readonly (readonly [string, readonly Corner[]])[] = [
  ['all', corners],
  ['front', ['LF', 'RF']],
  ['rear', ['LR', 'RR']],
  ['left', sides.left],
  ['right', sides.right],
];

/** The corner that is clearly worst, else the area that covers just these corners, else the worst of them. */
const areaOf = (off: readonly Corner[], stand: PerCorner<number>): string => {
  const worst = [...off].sort((a, b) => Math.abs(stand[b]) - Math.abs(stand[a]));
  const [first = 'LF', second] = worst;
  if (second === undefined || Math.abs(stand[first]) > 1.6 * Math.abs(stand[second])) return first;
  return (
    areas.find(([, own]) => own.length === off.length && own.every((corner) => off.includes(corner)))?.[0] ??
    first
  );
};

/** How the body sits to the eye, or nothing where it is level enough. */
const sitting = (stand: PerCorner<number>): Said => {
  const low = corners.filter((corner) => stand[corner] < -seen);
  if (low.length > 0) return { where: areaOf(low, stand), sits: 'low' };
  const high = corners.filter((corner) => stand[corner] > seen);
  return high.length > 0 ? { where: areaOf(high, stand), sits: 'high' } : {};
};

const ofStand = (car: Car): Said => {
  const evening = sitting(standAt(car, 'evening').floor);
  if (evening.sits) return { ...evening, when: 'always' };
  const morning = sitting(standAt(car, 'morning').floor);
  return morning.sits ? { ...morning, when: 'after-standing' } : {};
};

const ofAir = (car: Car, draw: Draw): Said => {
  const { compressor, tank, sag } = car;
  const leaks = tank.leak > 12 || Math.max(...car.fitted.map((corner) => sag[corner])) > 15;
  if (compressor.exhaust > 0.2 && draw.chance(0.6)) return { noise: 'hiss' };
  if (leaks && draw.chance(0.3)) return { noise: 'hiss' };
  const slow = !fillsInTime(car);
  if ((slow || leaks) && compressor.dead === 'no' && draw.chance(0.5))
    return draw.chance(0.5) ? { noise: 'runs-long' } : { moves: 'slowly' };
  return {};
};

const ofLevelling = (car: Car, draw: Draw): Said => {
  const still = !boots(car) || car.levelling.mode !== 'normal' || levellingOf(car) === 'faulted';
  const dead = car.compressor.dead !== 'no' || car.compressor.feed > 1e3;
  return (still || dead) && draw.chance(0.45) ? { moves: 'never' } : {};
};

/** A strand, a joint and a track come and go; a weak battery shows in the cold. */
const ofOccasion = (car: Car, draw: Draw): Said => {
  const loose = car.fitted.some((corner) => {
    const { intermittent, signal } = car.wiring[corner];
    return intermittent || (signal > 50 && signal < 1e6) || car.sensor[corner].jump > 0.01;
  });
  if (loose && draw.chance(0.5)) return { when: draw.pick(['wet', 'on-the-road']) };
  const weak = postVolts(car, 'cranking') < 9.4 || batteryOhms(car) > 0.012;
  return weak && draw.chance(0.4) ? { when: 'cold' } : {};
};

const ofRide = (car: Car, draw: Draw): Said => {
  const bad = car.fitted.find(
    (corner) => car.damper[corner].worn || Math.abs(car.damper[corner].ohms - 6) > 1,
  );
  if (bad && draw.chance(0.65)) return { where: bad, rides: draw.pick(['hard', 'bouncy']) };
  const off = car.fitted.find((corner) => car.linkage[corner] === null);
  return off && draw.chance(0.2) ? { where: off, noise: 'knock' } : {};
};

/** What people say of vehicles with nothing wrong, and beside what is. */
const idle = (draw: Draw): Said =>
  draw.pick<Said>([
    { where: 'rear', sits: 'low', when: 'loaded' },
    { sits: 'uneven', when: 'always' },
    { noise: 'knock' },
    { rides: 'hard' },
    { when: 'cold' },
    { noise: 'runs-long' },
  ]);

/** What the driver of a vehicle says when asked; some say nothing, and some what has nothing to do with it. */
export const driverOf = ({ car }: Pick<Member, 'car'>, draw: Draw): Said => {
  const says = {
    ...ofOccasion(car, draw),
    ...ofAir(car, draw),
    ...ofLevelling(car, draw),
    ...ofRide(car, draw),
    ...(draw.chance(0.8) ? ofStand(car) : {}),
  };
  if (draw.chance(0.06)) return idle(draw);
  return draw.chance(0.75) ? says : {};
};

/** What the work before this visit has to do with what is wrong now, by what is at fault. From memory. */
const afterWork: Readonly<
  Record<string, { readonly share: number; readonly on: (place: string) => readonly string[] }>
> = {
  'wrong-sensor': { share: 0.8, on: (corner) => [`sensor.${corner}`] },
  'crossed-plugs': { share: 0.7, on: (axle) => [axle, 'harness'] },
  calibration: { share: 0.5, on: () => ['control-module', 'tyres', 'body'] },
  configuration: { share: 0.7, on: () => ['control-module'] },
  linkage: { share: 0.15, on: (corner) => [corner] },
  wiring: { share: 0.15, on: (corner) => ['harness', corner] },
  'levelling-mode': { share: 0.2, on: () => ['body'] },
};

/** What somebody worked on before this visit, as far as the shop knows. */
export const recentWorkOf = ({ troubles }: Member, draw: Draw): readonly string[] => {
  for (const { truth } of troubles) {
    const [name = '', place = ''] = truth.split('.');
    const known = afterWork[name];
    if (known && draw.chance(known.share)) return [draw.pick(known.on(place))];
  }
  return draw.chance(0.08) ? [draw.pick(['tyres', 'battery', 'front', 'rear', 'damper.LR'])] : [];
};
