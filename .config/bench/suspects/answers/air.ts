import { axles } from '../../../../src/core/corner.ts';
import { fillsInTime, runAgainst, shownPressure, timedFrom } from '../model/air.ts';
import { outcomeOfCommand } from '../model/command.ts';
import { postVolts } from '../model/supply.ts';
import { isBroken } from '../model/vehicle.ts';
import { type Answer, type Answers, type Bench, volts } from './bench.ts';

const hasTruth = ({ member: { troubles } }: Bench, truth: string): boolean =>
  troubles.some((trouble) => trouble.truth === truth);

/** How often soap finds a leak: a fold hides some, and some cannot be got at. */
const found = { spring: 0.78, line: 0.86, tank: 0.85, block: 0.6 };

const soapAtCorner: Answer = (bench, { corner }) => {
  if (bench.member.car.sag[corner] < 2) return 'no-bubbles';
  if (hasTruth(bench, `air-spring.${corner}`))
    return bench.luck.chance(found.spring) ? 'bubbles-at-spring' : 'no-bubbles';
  return hasTruth(bench, `air-line.${corner}`) && bench.luck.chance(found.line)
    ? 'bubbles-at-line'
    : 'no-bubbles';
};

const soapAtSupply: Answer = (bench) => {
  if (bench.member.car.tank.leak < 2) return 'no-bubbles';
  if (hasTruth(bench, 'tank')) return bench.luck.chance(found.tank) ? 'bubbles-at-tank' : 'no-bubbles';
  return bench.luck.chance(found.block) ? 'bubbles-at-valve-block' : 'no-bubbles';
};

const overnight: Answer = ({ member: { car }, visit }) => {
  const { evening, morning } = visit.stand;
  const lost = car.fitted.map((corner) =>
    visit.by.see('tape', evening.floor[corner] - morning.floor[corner]),
  );
  const most = Math.max(...lost);
  if (most < 15) return 'stays';
  // One that goes down takes its neighbours along by a part.
  return lost.filter((mm) => mm > most * 0.7).length > 1 ? 'several-drop' : 'one-corner-drops';
};

const valveHold: Answer = (bench, { corner }) => {
  const { car } = bench.member;
  const lets = Math.abs(car.passes[corner]) > 1 || (hasTruth(bench, 'valve-block') && car.sag[corner] > 1.5);
  return lets ? 'passes' : 'holds';
};

const tapeHeights: Answer = ({ member: { car }, visit }) => {
  const { wheel } = visit.stand['key-on'];
  const taped = new Map(car.fitted.map((corner) => [corner, visit.by.see('tape', wheel[corner])]));
  const uneven = Object.values(axles).some(([left, right]) => {
    const [one, other] = [taped.get(left), taped.get(right)];
    return one !== undefined && other !== undefined && Math.abs(one - other) > 12;
  });
  if (uneven) return 'body-uneven';
  const middle = [...taped.values()].reduce((sum, one) => sum + one, 0) / taped.size;
  return middle < -20 ? 'lower-all' : middle > 20 ? 'higher-all' : 'body-level';
};

const dampers: Answer = ({ member: { car } }, { axle }) => {
  const bad = axles[axle].find((corner) => Math.abs(car.damper[corner].ohms - 6) > 0.7);
  return bad ? `differs-${bad}` : 'alike';
};

const compressorFeed: Answer = (bench) => {
  const { car } = bench.member;
  const lost = volts(bench, postVolts(car, 'running')) - volts(bench, runAgainst(car, timedFrom(car)).volts);
  return lost > 1 ? 'low' : 'in-range';
};

const gaugeAtTank: Answer = ({ member: { car }, visit }) => {
  const shown = visit.by.see('shown-pressure', shownPressure(car, car.tank.psi));
  return Math.abs(shown - visit.by.see('gauge', car.tank.psi)) > 5 ? 'differs' : 'agrees';
};

export const airAnswers: Answers = {
  'tape-heights': tapeHeights,
  'raise-lower-command': ({ member: { car } }) => outcomeOfCommand(car),
  'leak-down-hold': ({ member: { car } }) => (car.tank.leak > 3 ? 'falls' : 'holds'),
  'height-drop-overnight': overnight,
  'soap-fittings': soapAtCorner,
  'soap-fittings.supply': soapAtSupply,
  'corner-valve-hold': valveHold,
  'exhaust-port': ({ member: { car } }) => (car.compressor.exhaust > 0.1 ? 'air-escapes' : 'quiet'),
  'exhaust-blocked-retime': ({ member: { car } }) =>
    fillsInTime({ ...car, compressor: { ...car.compressor, exhaust: 0 } }) ? 'fills-faster' : 'still-slow',
  'pump-up-timing': ({ member: { car } }) => (fillsInTime(car) ? 'in-time' : 'slow'),
  'dryer-bypassed': ({ member: { car } }) =>
    fillsInTime({ ...car, compressor: { ...car.compressor, dryer: 1 } }) ? 'in-time' : 'as-slow',
  'compressor-feed-loaded': compressorFeed,
  'compressor-cool-down': ({ member: { car } }) =>
    car.compressor.dead === 'cut-out' || (car.compressor.dead === 'no' && !isBroken(car.compressor.feed))
      ? 'runs-again'
      : 'stays-dead',
  'gauge-at-tank': gaugeAtTank,
  'damper-resistance': dampers,
};
