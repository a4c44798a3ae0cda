import type { Corner } from '../../../src/core/corner.ts';
import { levelled, unlevelled } from './body.ts';
import { type Car, type PerCorner, perCorner } from './vehicle.ts';

/** What stands for a wire that is broken: the leakage of the module's inputs, ohms. */
const broken = 2e6;

/** The three nodes that the sensors share, volts against battery negative's side of the module. */
export interface Rails {
  /** At the module, before the shared wire. */
  readonly regulator: number;
  /** At the plugs. */
  readonly reference: number;
  readonly ground: number;
}

/** A sensor that has lost its supply or its ground takes nothing. */
const isFed = ({ reference, ground }: Car['wiring'][Corner]): boolean =>
  reference === 'whole' && ground === 'whole';

/**
 * The divider of regulator, shared wire, sensors and shared ground. Beyond its limit the regulator gives no more
 * current and its volts fall.
 *
 * @param without a corner whose plug is off
 */
export const railsOf = (car: Car, without: Corner | null = null): Rails => {
  const siemens = car.fitted.reduce(
    (sum, corner) =>
      corner === without || !isFed(car.wiring[corner]) ? sum : sum + 1 / car.sensor[corner].ohms,
    1 / 1e6,
  );
  const ground = Math.min(car.sensorGround, broken);
  const wire = Math.min(car.reference.ohms, broken);
  const sensors = 1 / siemens;
  const whole = wire + sensors + ground;
  const current = Math.min(car.reference.volts / whole, car.reference.limit);
  return {
    regulator: current * whole,
    reference: current * (sensors + ground),
    ground: current * ground,
  };
};

/** What the arm of a sensor stands at, mm off the nominal height, with the body where it is. */
const armAt = (car: Car, corner: Corner, body: number): number => {
  const off = car.linkage[corner];
  // An arm that hangs free lies at its lower end.
  return off === null ? -70 : body + off;
};

/** Share of its supply that a sensor gives. */
const shareOf = (car: Car, corner: Corner, body: number): number => {
  const { gain, centre, drift, stuck } = car.sensor[corner];
  const share = stuck ?? centre + drift + gain * armAt(car, corner, body);
  // What is stuck may be at a rail; one that follows stays inside its output's reach.
  return stuck === null ? Math.max(0.03, Math.min(0.97, share)) : share;
};

/** A signal along its way, volts: at the sensor's plug, at the module's pin, and as the module shows it. */
export interface Signal {
  readonly plug: number;
  readonly pin: number;
  readonly shown: number;
  /** Half the width by which it jumps while nothing moves, at the plug and from the pin on. */
  readonly plugJump: number;
  readonly jump: number;
}

/** What a corner's plug has between its own supply and its own ground, volts. */
export const plugSupply = (car: Car, corner: Corner, rails: Rails): number =>
  isFed(car.wiring[corner]) ? rails.reference - rails.ground : 0;

const plugVolts = (car: Car, corner: Corner, body: number, rails: Rails): number => {
  const wiring = car.wiring[corner];
  if (wiring.touches === 'ground') return 0.02;
  if (wiring.touches === 'reference') return rails.reference - 0.02;
  // Without its supply a sensor draws its signal to its ground, without its ground to its supply.
  if (wiring.reference === 'broken') return rails.ground + 0.03;
  if (wiring.ground === 'broken') return rails.reference - 0.03;
  return rails.ground + shareOf(car, corner, body) * (rails.reference - rails.ground);
};

/** The signal at the module's pin: the signal wire and the module's bias are a divider. */
const pinVolts = (car: Car, corner: Corner, plug: number, regulator: number): number => {
  const { bias, biasedHigh } = car.module;
  const wire = Math.min(car.wiring[corner].signal, broken * 50);
  const pull = biasedHigh ? regulator : 0;
  return plug + (pull - plug) * (wire / (wire + bias));
};

/** What the module makes of a pin: against its own reference, or against one that is always right. */
const shownVolts = (car: Car, pin: number, regulator: number): number => {
  const { ratiometric, signalGain, signalOffset } = car.module;
  const read = ratiometric ? (pin / Math.max(regulator, 0.1)) * 5 : pin;
  return Math.max(0, Math.min(5.1, read * signalGain + signalOffset));
};

/**
 * The signal of a corner.
 *
 * @param body how far the body stands off its nominal height there, mm
 */
export const signalOf = (car: Car, corner: Corner, body: number, rails: Rails = railsOf(car)): Signal => {
  const plug = plugVolts(car, corner, body, rails);
  const pin = pinVolts(car, corner, plug, rails.regulator);
  const shown = shownVolts(car, pin, rails.regulator);
  const away = car.module.biasedHigh ? rails.regulator : 0;
  const plugJump = car.sensor[corner].jump * 5;
  // A strand that parts leaves the pin to the module's bias.
  const jump = car.wiring[corner].intermittent ? Math.abs(away - pin) / 2 : plugJump;
  return { plug, pin, shown, plugJump, jump };
};

/** How far each sensor reads from the truth, mm: what the module shows against what it learnt of the good sensor. */
const astray = (car: Car, rails: Rails): PerCorner<number> =>
  perCorner((corner) => {
    const { gain, centre } = car.sensor[corner];
    return (signalOf(car, corner, 0, rails).shown - 5 * centre) / (5 * gain);
  });

/** Levelling stops where a signal is at a rail or jumps, where nothing follows an arm, and where the supply fails. */
const canLevel = (car: Car, rails: Rails): boolean =>
  car.module.boots &&
  car.fitted.every((corner) => {
    const { shown, jump } = signalOf(car, corner, 0, rails);
    return shown > 0.3 && shown < 4.7 && jump < 0.1;
  });

/** Whether levelling is active as the vehicle stands, disabled by hand, or has stopped by itself. */
export const levellingOf = (car: Car): 'active' | 'disabled' | 'faulted' => {
  if (car.levelling === 'disabled') return 'disabled';
  return canLevel(car, railsOf(car)) ? 'active' : 'faulted';
};

/** How far each corner of the body stands off its nominal height, mm, so many hours after it last levelled itself. */
export const bodyOf = (car: Car, hours: number): PerCorner<number> =>
  levellingOf(car) === 'active' ? levelled(car, astray(car, railsOf(car))) : unlevelled(car, hours);
