import { axles, type Corner } from '../../../../src/core/corner.ts';
import { groundAtPlug, plugSupply, railsOf } from '../model/rails.ts';
import { armAt, sensorAt, signalOf } from '../model/signals.ts';
import { type Car, goodGain } from '../model/vehicle.ts';
import { type Answer, type Answers, type Bench, isOff, volts } from './bench.ts';

const referenceIsOff = (bench: Bench, corner: Corner, without: readonly Corner[]): boolean => {
  const { car } = bench.member;
  return isOff(volts(bench, plugSupply(car, corner, railsOf(car, without))), 4.88, 5.12);
};

const anyIsOff = (bench: Bench, without: readonly Corner[]): boolean =>
  bench.member.car.fitted.some(
    (corner) => !without.includes(corner) && referenceIsOff(bench, corner, without),
  );

/** Each plug is taken off by itself and put back; last, all of them are off and the reference is read at one. */
const referenceUnplugged: Answer = (bench) => {
  if (!anyIsOff(bench, [])) return 'right-throughout';
  const { fitted } = bench.member.car;
  const cure = fitted.find((corner) => !anyIsOff(bench, [corner]));
  return cure ? `recovers-${cure}` : 'stays-wrong';
};

const referenceUnloaded: Answer = (bench) => {
  const { car } = bench.member;
  const { reference } = railsOf(car, car.fitted);
  return isOff(volts(bench, reference), 4.88, 5.12) ? 'wrong' : 'right';
};

const referenceAtPin: Answer = (bench) => {
  const { regulator } = railsOf(bench.member.car);
  const seen = volts(bench, regulator);
  return seen < 0.5 ? 'none' : seen < 4.88 ? 'low' : 'in-range';
};

/** What a good signal would be with the body where the eye sees it. */
const goodVolts = (car: Car, corner: Corner, mm: number): number =>
  5 * (car.sensor[corner].centre + goodGain(car, corner) * mm);

const plugAndPin: Answer = (bench, { corner }) => {
  const { car } = bench.member;
  const { wheel } = bench.visit.stand['key-on'];
  const { plug, pin, plugJump, jump } = signalOf(car, corner, wheel);
  const [atPlug, atPin] = [volts(bench, plug), volts(bench, pin)];
  const jumpsAtPlug = plugJump > 0.05;
  if (Math.abs(atPlug - atPin) > 0.1 || (jump > 0.05 && !jumpsAtPlug)) return 'right-at-plug-only';
  const plausible = Math.abs(atPlug - goodVolts(car, corner, wheel[corner])) < 0.4 && !jumpsAtPlug;
  return plausible ? 'right-at-both' : 'wrong-at-both';
};

const plugOff: Answer = ({ member: { car }, visit }, { corner }) => {
  const { wheel } = visit.stand['key-on'];
  const cut = { ...car.wiring[corner], signal: 1e12, touches: 'nothing' as const };
  // A wire that touches something touches it with its plug off, too; one that is broken is open already.
  const off: Car = { ...car, wiring: { ...car.wiring, [corner]: cut } };
  const stays =
    car.wiring[corner].touches !== 'nothing' ||
    Math.abs(signalOf(car, corner, wheel).shown - signalOf(off, corner, wheel).shown) < 0.2;
  return stays ? 'stays' : 'goes-to-rail';
};

/** With the linkage off, the arm is moved the whole way: the sensor that hangs on these wires is watched. */
const armByHand: Answer = ({ member: { car } }, { corner }) => {
  const free: Car = { ...car, linkage: { ...car.linkage, [corner]: 0 } };
  const signal = (mm: number) => signalOf(free, corner, { LF: 0, RF: 0, LR: 0, RR: 0, [corner]: mm });
  if (signal(0).jump > 0.05) return 'jumps';
  return Math.abs(signal(30).shown - signal(-30).shown) > 0.1 ? 'smooth' : 'stuck';
};

/** Arms are compared across an axle by eye: 12 mm at the linkage can be seen. */
const armAngles: Answer = ({ member: { car }, visit }, { axle }) => {
  const [left, right] = axles[axle];
  const { wheel } = visit.stand['key-on'];
  const stands = (corner: Corner): number => armAt(car, corner, wheel[corner]);
  if (Math.abs(stands(left) - stands(right)) <= 12) return 'alike';
  return Math.abs(stands(left)) > Math.abs(stands(right)) ? 'left-differs' : 'right-differs';
};

const unplugOne: Answer = ({ member: { car } }, { axle }) =>
  axles[axle].some((corner) => sensorAt(car, corner) !== corner) ? 'other-side-drops' : 'same-side-drops';

/** Swapped left for right, what a sensor does by itself goes with it; what is done to it stays. */
const swapped: Answer = ({ member: { car } }, { axle }) =>
  axles[axle].some((corner) => {
    const { drift, stuck, jump, otherHand } = car.sensor[corner];
    return Math.abs(drift) > 0.02 || stuck !== null || jump > 0.01 || otherHand;
  })
    ? 'fault-moves'
    : 'fault-stays';

/** A joint that resists, or a strand, moves with the harness; one that is rotten through does not always. */
const harness: Answer = ({ member: { car }, luck }, { corner }) => {
  const { intermittent, reference, ground, touches, signal } = car.wiring[corner];
  if (intermittent) return luck.chance(0.9) ? 'changes' : 'steady';
  const joint = (ohms: number, good: number): boolean => ohms > good && luck.chance(0.4);
  const broken = (reference === 'broken' || ground === 'broken' || touches !== 'nothing') && luck.chance(0.4);
  const shared =
    joint(car.reference.ohms, 2) ||
    joint(car.sensorGround.shared, 1.5) ||
    joint(car.sensorGround[corner.endsWith('F') ? 'front' : 'rear'], 1.5);
  return broken || joint(signal, 50) || shared ? 'changes' : 'steady';
};

export const signalAnswers: Answers = {
  'reference-at-plug': (bench, { corner }) =>
    referenceIsOff(bench, corner, []) ? 'out-of-range' : 'in-range',
  'reference-at-module-pin': referenceAtPin,
  'reference-unplugged': referenceUnplugged,
  'reference-unloaded': referenceUnloaded,
  'sensor-ground-drop': (bench, { corner }) => {
    const { car } = bench.member;
    return volts(bench, groundAtPlug(car, corner, railsOf(car))) > 0.08 ? 'high' : 'low';
  },
  'signal-at-plug-and-pin': plugAndPin,
  'signal-plug-off': plugOff,
  'unplug-one': unplugOne,
  'arm-by-hand': armByHand,
  'arm-angles': armAngles,
  'swap-sensors': swapped,
  'harness-movement': harness,
};
