import { batteryOhms, moduleSupply, postVolts, restingVolts } from '../model/supply.ts';
import { isBroken } from '../model/vehicle.ts';
import { type Answer, type Answers, isOff, volts } from './bench.ts';

const modulePins: Answer = (bench) => {
  const { feedDrop, groundDrop, pins } = moduleSupply(bench.member.car, 'key-on');
  const [feed, ground] = [volts(bench, feedDrop), volts(bench, groundDrop)];
  if (ground > 0.12 && ground > feed / 2) return 'ground-high';
  return feed > 0.25 || volts(bench, pins) < 11 ? 'feed-low' : 'both-good';
};

const drops: Answer = (bench) => {
  const { feedDrop, groundDrop } = moduleSupply(bench.member.car, 'key-on');
  return volts(bench, feedDrop) > 0.25 || volts(bench, groundDrop) > 0.12 ? 'high' : 'low';
};

const fuse: Answer = ({ member: { car } }) => {
  if (postVolts(car, 'key-on') < 4) return 'no-volts';
  return isBroken(car.module.feed) ? 'volts-one-side' : 'volts-both-sides';
};

/** Charged first, then loaded with 200 A: by physics a battery that was only emptied passes. */
const loadTest: Answer = ({ member: { car } }) => {
  const charged = { ...car, battery: { ...car.battery, charge: 0.95 } };
  return restingVolts(charged) - 200 * batteryOhms(charged) < 9.6 ? 'fails' : 'passes';
};

const fullLoad: Answer = (bench) => {
  const seen = volts(bench, postVolts(bench.member.car, 'loaded'));
  return seen < 13.2 ? 'sags' : seen > 15.3 ? 'too-high' : 'holds';
};

/** Charged, and read after twelve hours of 70 Ah giving what flows at rest; a dead cell and a worn one lose more. */
const restedAgain: Answer = ({ member: { car } }) => {
  const worn = Math.max(0, (car.battery.ohms - 0.01) * 8);
  const charge = Math.max(0.02, 0.95 - (car.standingAmps * 12) / 70 - worn);
  return restingVolts({ ...car, battery: { ...car.battery, charge } }) < 12.4 ? 'low-again' : 'holds-charge';
};

/** A second meter tells one that is over 1 % off, a second gauge one that is over 4 psi off. */
const secondMeter: Answer = ({ member: { car } }) =>
  Math.abs(car.instruments.meter) > 0.01 || Math.abs(car.instruments.gauge) > 4
    ? 'meters-differ'
    : 'meters-agree';

/** A donor brings its own measuring; it may bring its settings, too. */
const donor: Answer = ({ member: { troubles }, luck }) => {
  const gone = troubles.some(
    ({ truth }) =>
      truth === 'control-module' ||
      truth === 'module-reading' ||
      (truth === 'configuration' && luck.chance(0.4)),
  );
  // With a second fault beside it the lamp is still lit.
  return gone && troubles.length === 1 ? 'fault-gone' : 'fault-stays';
};

export const supplyAnswers: Answers = {
  'module-pins-loaded': modulePins,
  'fuse-both-sides': fuse,
  'second-meter': secondMeter,
  'feed-drop-loaded': drops,
  'network-resistance': ({ member: { car } }) => (isOff(car.network, 54, 66) ? 'out-of-range' : 'in-range'),
  'battery-load-test': loadTest,
  'full-load-charging': fullLoad,
  'standing-current': ({ member: { car } }) => (car.standingAmps > 0.05 ? 'high' : 'normal'),
  'rested-again': restedAgain,
  'known-good-module': donor,
};
