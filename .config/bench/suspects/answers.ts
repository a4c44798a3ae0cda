import { type Corner, isCorner } from '../../../src/core/corner.ts';
import { sagged } from './body.ts';
import type { Member } from './faults.ts';
import type { Instruments } from './instruments.ts';
import { pumpingRate } from './pneumatics.ts';
import type { Draw } from './random.ts';
import { bodyOf, plugSupply, railsOf, signalOf } from './signals.ts';
import { batteryOhms, compressorVolts, moduleSupply, postVolts, restingVolts } from './supply.ts';
import type { Car } from './vehicle.ts';

/** A technician at a vehicle: what is true of it, the instruments, and luck where a search may miss. */
export interface Bench {
  readonly member: Member;
  readonly by: Instruments;
  readonly luck: Draw;
}

/** What a test finds, by the name of its outcome. The limits are those of common practice, no source. */
type Answer = (bench: Bench, corner: Corner) => string;

const volts = ({ by }: Bench, value: number): number => by.see('meter', value);

const off = (value: number, low: number, high: number): boolean => value < low || value > high;

const modulePins: Answer = (bench) => {
  const { feedDrop, groundDrop, pins } = moduleSupply(bench.member.car, 'key-on');
  const [feed, ground] = [volts(bench, feedDrop), volts(bench, groundDrop)];
  if (ground > 0.12 && ground > feed / 2) return 'ground-high';
  return feed > 0.25 || volts(bench, pins) < 11 ? 'feed-low' : 'both-good';
};

const referenceIsOff = (bench: Bench, without: Corner | null): boolean => {
  const { car } = bench.member;
  const rails = railsOf(car, without);
  return car.fitted.some(
    (corner) => corner !== without && off(volts(bench, plugSupply(car, corner, rails)), 4.88, 5.12),
  );
};

/** Each plug is taken off by itself and put back. */
const referenceUnplugged: Answer = (bench) => {
  if (!referenceIsOff(bench, null)) return 'right-throughout';
  const cure = bench.member.car.fitted.find((corner) => !referenceIsOff(bench, corner));
  return cure ? `recovers-${cure}` : 'stays-wrong';
};

/** What a good signal would be with the body where the eye sees it. */
const goodVolts = (car: Car, corner: Corner, body: number): number =>
  5 * (car.sensor[corner].centre + car.sensor[corner].gain * body);

const plugAndPin: Answer = (bench, corner) => {
  const { car } = bench.member;
  const body = bodyOf(car, 0)[corner];
  const { plug, pin, plugJump, jump } = signalOf(car, corner, body);
  const [atPlug, atPin] = [volts(bench, plug), volts(bench, pin)];
  const jumpsAtPlug = plugJump > 0.05;
  if (Math.abs(atPlug - atPin) > 0.1 || (jump > 0.05 && !jumpsAtPlug)) return 'right-at-plug-only';
  const plausible = Math.abs(atPlug - goodVolts(car, corner, body)) < 0.4 && !jumpsAtPlug;
  return plausible ? 'right-at-both' : 'wrong-at-both';
};

const armByHand: Answer = ({ member: { car } }, corner) => {
  const rails = railsOf(car);
  const signal = (mm: number) =>
    signalOf({ ...car, linkage: { ...car.linkage, [corner]: 0 } }, corner, mm, rails);
  if (signal(0).jump > 0.05) return 'jumps';
  const swing = Math.abs(signal(30).shown - signal(-30).shown);
  return swing > 0.1 ? 'smooth' : 'stuck';
};

/** Arms are compared across an axle by eye: 12 mm at the linkage, or a body that leans by 25 mm, can be seen. */
const armAngles: Answer = ({ member: { car } }) => {
  const body = bodyOf(car, 0);
  const stands = (corner: Corner): number => {
    const linkage = car.linkage[corner];
    return linkage === null ? -70 : linkage + body[corner] * 0.5;
  };
  const differs = [
    ['LF', 'RF'],
    ['LR', 'RR'],
  ] as const;
  return differs.some(
    ([left, right]) => car.fitted.includes(left) && Math.abs(stands(left) - stands(right)) > 12,
  )
    ? 'differ'
    : 'alike';
};

const tapeHeights: Answer = ({ member: { car }, by }) => {
  const body = bodyOf(car, 0);
  const taped = car.fitted.map((corner) => by.see('tape', body[corner]));
  const uneven = Math.max(...taped) - Math.min(...taped) > 15 || Math.abs(taped[0] ?? 0) > 20;
  return uneven ? 'body-uneven' : 'body-level';
};

/** A joint that resists, or a strand, moves with the harness; one that is rotten through does not. */
const harness: Answer = ({ member: { car }, luck }) => {
  if (car.fitted.some((corner) => car.wiring[corner].intermittent)) return 'changes';
  const joint = (ohms: number, good: number): boolean => ohms > good && luck.chance(0.4);
  const broken = car.fitted.some(
    (corner) =>
      (car.wiring[corner].reference === 'broken' ||
        car.wiring[corner].ground === 'broken' ||
        car.wiring[corner].touches !== 'nothing') &&
      luck.chance(0.4),
  );
  const moves =
    broken ||
    car.fitted.some((corner) => joint(car.wiring[corner].signal, 50)) ||
    joint(car.reference.ohms, 2) ||
    joint(car.sensorGround, 1.5) ||
    joint(Math.abs(car.network - 60), 5);
  return moves ? 'changes' : 'steady';
};

/** Charged first, then loaded with 200 A: by physics a battery that was only emptied passes. */
const loadTest: Answer = ({ member: { car } }) => {
  const charged = { ...car, battery: { ...car.battery, charge: 0.95 } };
  return restingVolts(charged) - 200 * batteryOhms(charged) < 9.6 ? 'fails' : 'passes';
};

const overnight: Answer = ({ member: { car }, by }) => {
  const down = sagged(car, 10);
  const lost = car.fitted.map((corner) => -by.see('tape', down[corner]));
  const most = Math.max(...lost);
  if (most < 20) return 'stays';
  // One that goes down takes its neighbours a third of the way.
  return lost.filter((mm) => mm > most / 2).length > 1 ? 'several-drop' : 'one-corner-drops';
};

/** Where soap finds a leak, and how often it can be got at: a fold hides some, an exhaust blows by itself. */
const soapAt = {
  'air-spring': ['bubbles-at-spring', 0.75],
  'air-line': ['bubbles-at-line', 0.85],
  tank: ['bubbles-at-tank', 0.8],
  'valve-block': ['bubbles-at-valve-block', 0.55],
} as const;

const soap: Answer = ({ member: { car, fault }, luck }) => {
  const leaks = Object.entries(soapAt).find(([suspect]) => suspect === fault?.suspect);
  const big = car.tank.leak > 2 || Math.max(...car.fitted.map((corner) => car.sag[corner])) > 4;
  if (!leaks || !big) return 'no-bubbles';
  const [outcome, found] = leaks[1];
  return luck.chance(found) ? outcome : 'no-bubbles';
};

const dampers: Answer = ({ member: { car } }) => {
  const bad = car.fitted.find((corner) => Math.abs(car.damper[corner] - 6) > 0.6);
  return bad ? `differs-${bad}` : 'alike';
};

/** Swapped left for right, what the sensor does by itself goes with it; what it does to all stays. */
const swapped: Answer = ({ member: { car } }) =>
  car.fitted.some((corner) => {
    const { drift, stuck, jump } = car.sensor[corner];
    return Math.abs(drift) > 0.02 || stuck !== null || jump > 0.01;
  })
    ? 'fault-moves'
    : 'fault-stays';

/** A donor brings its own measuring; it may bring its settings, too. */
const donor: Answer = ({ member: { fault }, luck }) =>
  fault?.suspect === 'control-module' || (fault?.suspect === 'configuration' && luck.chance(0.4))
    ? 'fault-gone'
    : 'fault-stays';

const answers: Readonly<Record<string, Answer>> = {
  'module-pins-loaded': modulePins,
  'reference-at-plug': (bench) => (referenceIsOff(bench, null) ? 'out-of-range' : 'in-range'),
  'reference-unplugged': referenceUnplugged,
  // Less and less of the load is on it; none with one plug off is as near as the model comes.
  'reference-unloaded': (bench) =>
    bench.member.car.fitted.some((corner) => referenceIsOff(bench, corner)) ? 'wrong' : 'right',
  'sensor-ground-drop': (bench) => (volts(bench, railsOf(bench.member.car).ground) > 0.08 ? 'high' : 'low'),
  'feed-drop-loaded': (bench) => {
    const { feedDrop, groundDrop } = moduleSupply(bench.member.car, 'key-on');
    return volts(bench, feedDrop) > 0.25 || volts(bench, groundDrop) > 0.12 ? 'high' : 'low';
  },
  'signal-at-plug-and-pin': plugAndPin,
  'arm-by-hand': armByHand,
  'arm-angles': armAngles,
  'tape-heights': tapeHeights,
  'swap-sensors': swapped,
  'harness-movement': harness,
  'network-resistance': ({ member: { car } }) => (off(car.network, 54, 66) ? 'out-of-range' : 'in-range'),
  'battery-load-test': loadTest,
  'standing-current': ({ member: { car } }) => (car.standingAmps > 0.05 ? 'high' : 'normal'),
  'leak-down-hold': ({ member: { car } }) => (car.tank.leak > 3 ? 'falls' : 'holds'),
  'height-drop-overnight': overnight,
  'soap-fittings': soap,
  'pump-up-timing': ({ member: { car } }) => (pumpingRate(car) < 15 ? 'slow' : 'in-time'),
  'dryer-bypassed': ({ member: { car } }) =>
    pumpingRate({ ...car, compressor: { ...car.compressor, dryer: 1 } }) < 15 ? 'as-slow' : 'in-time',
  'compressor-feed-loaded': (bench) => {
    const { car } = bench.member;
    const lost = volts(bench, postVolts(car, 'running')) - volts(bench, compressorVolts(car));
    return lost > 1 ? 'low' : 'in-range';
  },
  'damper-resistance': dampers,
  'known-good-module': donor,
};

/** How often an eye sees a fault that is there. Judgement, from memory; seldom, since most faults do not show. */
const seen = 0.3;

/** What a look at a component shows: a fault now and then where it is the one that is broken, else nothing. */
const sightOf = (component: string, { member, luck }: Bench): string => {
  const broken =
    member.truth === component || (member.truth === 'standing-drain' && component === 'standing-load');
  return broken && luck.chance(seen) ? 'fault-seen' : 'nothing-seen';
};

/**
 * What a technician finds who does a test on a vehicle, by its physics and the instruments.
 *
 * @param test `arm-by-hand.LR`
 */
export const answerOf = (test: string, bench: Bench): string => {
  if (test.startsWith('inspected ')) return sightOf(test.slice('inspected '.length), bench);
  const dot = test.lastIndexOf('.');
  const tail = test.slice(dot + 1);
  const corner = dot > 0 && isCorner(tail) ? tail : null;
  const answer = answers[corner === null ? test : test.slice(0, dot)];
  if (!answer) throw new Error(`the simulated technician does not know the test ${test}`);
  return answer(bench, corner ?? 'LF');
};
