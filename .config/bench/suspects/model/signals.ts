import { axleOf, type Corner } from '../../../../src/core/corner.ts';
import { pairOf } from './per-corner.ts';
import { boots, type Rails, railsOf } from './rails.ts';
import type { Car } from './vehicle.ts';

/** Ohms of the module's inputs that a broken wire leaves. */
const open = 1e8;

/** What the arm of a sensor stands at, mm off the nominal height, with the body where it is over the wheel. */
export const armAt = (car: Car, corner: Corner, body: number): number => {
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

/** A signal along its way, volts against the module's ground: at a plug, at the module's pin, and as the module shows it. */
export interface Signal {
  readonly plug: number;
  readonly pin: number;
  readonly shown: number;
  /** Half the width by which it jumps while nothing moves, at the plug and from the pin on. */
  readonly plugJump: number;
  readonly jump: number;
}

const plugVolts = (car: Car, branch: Corner, at: Corner, body: number, rails: Rails): number => {
  const wiring = car.wiring[branch];
  const ground = rails.ground[axleOf(branch)];
  if (wiring.touches === 'ground') return 0.02;
  if (wiring.touches === 'reference') return rails.reference - 0.02;
  // Without its supply a sensor draws its signal to its ground, without its ground to its supply.
  if (wiring.reference === 'broken') return ground + 0.03;
  if (wiring.ground === 'broken') return rails.reference - 0.03;
  return ground + shareOf(car, at, body) * (rails.reference - ground);
};

/** The signal at the module's pin: the signal wire and the module's bias are a divider. */
const pinVolts = (car: Car, branch: Corner, plug: number, regulator: number): number => {
  const { bias, biasedHigh } = car.module;
  const wire = Math.min(car.wiring[branch].signal, open);
  const pull = biasedHigh ? regulator : 0;
  return plug + (pull - plug) * (wire / (wire + bias));
};

/** What the module makes of a pin: against its own reference, or against one that is always right. */
const shownVolts = (car: Car, pin: number, regulator: number): number => {
  const { ratiometric, signalGain, signalOffset } = car.module;
  const read = ratiometric ? (pin / Math.max(regulator, 0.1)) * 5 : pin;
  return Math.max(0, Math.min(5.1, read * signalGain + signalOffset));
};

/** The corner whose sensor a corner's wires are plugged to. */
export const sensorAt = (car: Car, corner: Corner): Corner =>
  car.crossed[axleOf(corner)] ? pairOf[corner] : corner;

/**
 * The signal that comes in by the wires of a corner.
 *
 * @param body how far the body stands off its nominal height over the wheel of each corner, mm
 */
export const signalOf = (
  car: Car,
  corner: Corner,
  body: Readonly<Record<Corner, number>>,
  rails: Rails = railsOf(car),
): Signal => {
  const at = sensorAt(car, corner);
  const plug = plugVolts(car, corner, at, body[at], rails);
  const pin = pinVolts(car, corner, plug, rails.regulator);
  const shown = boots(car) ? shownVolts(car, pin, rails.regulator) : 0;
  const away = car.module.biasedHigh ? rails.regulator : 0;
  const plugJump = car.sensor[at].jump * (rails.reference - rails.ground[axleOf(at)]);
  // A strand that parts leaves the pin to the module's bias.
  const jump = car.wiring[corner].intermittent ? Math.abs(away - pin) / 2 : plugJump;
  return { plug, pin, shown, plugJump, jump };
};
