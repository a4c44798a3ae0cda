import { axles, type Corner, isAxle } from '../../../src/core/corner.ts';
import { parseKey } from '../../../src/core/key.ts';
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

/** Arms are compared across an axle by eye, with the body level: 12 mm at the linkage can be seen. */
const armAngles: Answer = ({ member: { car } }, corner) => {
  const [left, right] = corner.endsWith('F') ? axles.front : axles.rear;
  const at = (one: Corner): number => car.linkage[one] ?? -70;
  const difference = at(left) - at(right);
  if (Math.abs(difference) <= 12) return 'alike';
  return Math.abs(at(left)) > Math.abs(at(right)) ? 'left-differs' : 'right-differs';
};

const tapeHeights: Answer = ({ member: { car }, by }) => {
  const body = bodyOf(car, 0);
  const taped = car.fitted.map((corner) => by.see('tape', body[corner]));
  if (Math.max(...taped) - Math.min(...taped) > 15) return 'body-uneven';
  const middle = taped.reduce((sum, one) => sum + one, 0) / taped.length;
  return middle < -20 ? 'lower-all' : middle > 20 ? 'higher-all' : 'body-level';
};

/** A joint that resists, or a strand, moves with the harness; one that is rotten through does not. */
const harness: Answer = ({ member: { car }, luck }, corner) => {
  const { intermittent, reference, ground, touches, signal } = car.wiring[corner];
  if (intermittent) return 'changes';
  const joint = (ohms: number, good: number): boolean => ohms > good && luck.chance(0.4);
  const broken = (reference === 'broken' || ground === 'broken' || touches !== 'nothing') && luck.chance(0.4);
  const shared = joint(car.reference.ohms, 2) || joint(car.sensorGround, 1.5);
  return broken || joint(signal, 50) || shared || joint(Math.abs(car.network - 60), 5) ? 'changes' : 'steady';
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

/** How often soap finds a leak that can be got at: a fold hides some. */
const found = { spring: 0.75, line: 0.85, tank: 0.8, block: 0.3 };

const soapAtCorner: Answer = ({ member: { car, fault, truth }, luck }, corner) => {
  if (car.sag[corner] < 2) return 'no-bubbles';
  if (truth === `air-spring.${corner}`) return luck.chance(found.spring) ? 'bubbles-at-spring' : 'no-bubbles';
  return fault?.suspect === 'air-line' && luck.chance(found.line) ? 'bubbles-at-line' : 'no-bubbles';
};

const soapAtSupply: Answer = ({ member: { car, fault }, luck }) => {
  if (car.tank.leak < 2) return 'no-bubbles';
  if (fault?.suspect === 'tank') return luck.chance(found.tank) ? 'bubbles-at-tank' : 'no-bubbles';
  return luck.chance(found.block) ? 'bubbles-at-valve-block' : 'no-bubbles';
};

const isOff = ({ member: { car } }: Bench, corner: Corner): boolean => Math.abs(car.damper[corner] - 6) > 0.6;

const dampers: Answer = (bench, corner) => {
  const pair = corner.endsWith('F') ? axles.front : axles.rear;
  const bad = pair.find((one) => isOff(bench, one));
  return bad ? `differs-${bad}` : 'alike';
};

/** Swapped left for right, what the sensor does by itself goes with it; what it does to all stays. */
const swapped: Answer = ({ member: { car } }, corner) =>
  (corner.endsWith('F') ? axles.front : axles.rear).some((one) => {
    const { drift, stuck, jump } = car.sensor[one];
    return Math.abs(drift) > 0.02 || stuck !== null || jump > 0.01;
  })
    ? 'fault-moves'
    : 'fault-stays';

/** A donor brings its own measuring; it may bring its settings, too. */
const donor: Answer = ({ member: { fault }, luck }) =>
  fault?.suspect === 'control-module' || (fault?.suspect === 'configuration' && luck.chance(0.4))
    ? 'fault-gone'
    : 'fault-stays';

const referenceAt: Answer = (bench, corner) =>
  off(volts(bench, plugSupply(bench.member.car, corner, railsOf(bench.member.car))), 4.88, 5.12)
    ? 'out-of-range'
    : 'in-range';

const referenceAtPin: Answer = (bench) => {
  const regulator = volts(bench, railsOf(bench.member.car).regulator);
  return regulator < 0.5 ? 'none' : regulator < 4.88 ? 'low' : 'in-range';
};

const plugOff: Answer = ({ member: { car } }, corner) => {
  const body = bodyOf(car, 0)[corner];
  const { shown } = signalOf(car, corner, body);
  const open = { ...car.wiring[corner], signal: 1e12 };
  const without = signalOf({ ...car, wiring: { ...car.wiring, [corner]: open } }, corner, body);
  return Math.abs(shown - without.shown) > 0.2 ? 'goes-to-rail' : 'stays';
};

const raiseAndLower: Answer = ({ member: { car } }) => {
  if (pumpingRate(car) < 3 && car.tank.psi < 80) return 'does-not-move';
  if (!car.module.boots) return 'does-not-move';
  const still = car.fitted.some((corner) => {
    const swing = signalOf(car, corner, 30).shown - signalOf(car, corner, -30).shown;
    return Math.abs(swing) < 0.3;
  });
  return still ? 'moves-signal-still' : 'moves-and-signal-follows';
};

const fullLoad: Answer = (bench) => {
  const seen = volts(bench, postVolts(bench.member.car, 'running'));
  return seen < 13.2 ? 'sags' : seen > 15.3 ? 'too-high' : 'holds';
};

const restedAgain: Answer = ({ member: { car } }) => {
  const full = {
    ...car,
    battery: { ...car.battery, charge: Math.max(0.02, 0.95 - (car.standingAmps * 12) / 70) },
  };
  return restingVolts(full) < 12.35 ? 'low-again' : 'holds-charge';
};

const answers: Readonly<Record<string, Answer>> = {
  'module-pins-loaded': modulePins,
  'fuse-both-sides': ({ member: { car } }) => (car.module.feed > 1e3 ? 'volts-one-side' : 'volts-both-sides'),
  'second-meter': () => 'meters-agree',
  'reference-at-plug': referenceAt,
  'reference-at-module-pin': referenceAtPin,
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
  'signal-plug-off': plugOff,
  'unplug-one': () => 'same-side-drops',
  'arm-by-hand': armByHand,
  'arm-angles': armAngles,
  'tape-heights': tapeHeights,
  'raise-lower-command': raiseAndLower,
  'swap-sensors': swapped,
  'harness-movement': harness,
  'network-resistance': ({ member: { car } }) => (off(car.network, 54, 66) ? 'out-of-range' : 'in-range'),
  'battery-load-test': loadTest,
  'full-load-charging': fullLoad,
  'standing-current': ({ member: { car } }) => (car.standingAmps > 0.05 ? 'high' : 'normal'),
  'rested-again': restedAgain,
  'leak-down-hold': ({ member: { car } }) => (car.tank.leak > 3 ? 'falls' : 'holds'),
  'height-drop-overnight': overnight,
  'soap-fittings': soapAtCorner,
  'soap-fittings.supply': soapAtSupply,
  'corner-valve-hold': ({ member: { fault, car } }, corner) =>
    fault?.suspect === 'valve-block' && car.sag[corner] > 2 ? 'passes' : 'holds',
  'exhaust-port': () => 'quiet',
  'exhaust-blocked-retime': ({ member: { car } }) => (pumpingRate(car) < 15 ? 'still-slow' : 'fills-faster'),
  'pump-up-timing': ({ member: { car } }) => (pumpingRate(car) < 15 ? 'slow' : 'in-time'),
  'dryer-bypassed': ({ member: { car } }) =>
    pumpingRate({ ...car, compressor: { ...car.compressor, dryer: 1 } }) < 15 ? 'as-slow' : 'in-time',
  'compressor-feed-loaded': (bench) => {
    const { car } = bench.member;
    const lost = volts(bench, postVolts(car, 'running')) - volts(bench, compressorVolts(car));
    return lost > 1 ? 'low' : 'in-range';
  },
  'compressor-cool-down': () => 'stays-dead',
  'gauge-at-tank': () => 'agrees',
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
  const { base, corner, axle } = parseKey(test);
  const answer = answers[base];
  if (!answer) throw new Error(`the simulated technician does not know the test ${test}`);
  return answer(bench, corner ?? (axle && isAxle(axle) ? axles[axle][0] : 'LF'));
};
