import { type Corner, corners } from '../../../../src/core/corner.ts';
import { type Stand, standOn } from './body.ts';
import { type PerCorner, perCorner } from './per-corner.ts';
import { boots, type Rails, railsOf } from './rails.ts';
import { signalOf } from './signals.ts';
import { type Car, goodGain } from './vehicle.ts';

/** How far a spring by itself would go on all the air that it can get, and on none, mm. */
const reach = 130;

/** What levelling makes of a height's error in one go. */
const stride = 0.35;
const mostRounds = 120;

/** Each corner's height as the module takes it, mm: by the sensor's own gain as it was learnt. */
const shownHeights = (car: Car, { wheel }: Stand, rails: Rails): PerCorner<number> =>
  perCorner((corner) => {
    const { shown } = signalOf(car, corner, wheel, rails);
    return (shown - 5 * car.sensor[corner].centre) / (5 * goodGain(car, corner));
  });

/** The part of four errors that a rigid body can follow: heave, pitch and roll, without the warp. */
const followed = (car: Car, errors: PerCorner<number>): PerCorner<number> => {
  if (car.fitted.length < corners.length)
    return perCorner((corner) => (car.fitted.includes(corner) ? errors[corner] : 0));
  const warp = (errors.LF - errors.RF - errors.LR + errors.RR) / 4;
  const sign = { LF: 1, RF: -1, LR: -1, RR: 1 };
  return perCorner((corner) => errors[corner] - sign[corner] * warp);
};

/** Which way air can go. */
export interface AirWays {
  readonly up: boolean;
  readonly down: boolean;
}

/**
 * What levelling makes of the springs: it fills and empties them until every sensor says its target, as far as a rigid
 * body and the air go. It obeys a wrong sensor; one of the other hand it follows to the end of the travel.
 *
 * @param springs where each spring would stand by itself before, mm off nominal
 * @returns the same after
 */
export const levelled = (car: Car, springs: PerCorner<number>, { up, down }: AirWays): PerCorner<number> => {
  const rails = railsOf(car);
  let own = springs;
  for (let round = 0; round < mostRounds; round += 1) {
    const heights = shownHeights(car, standOn(car, own), rails);
    const errors = followed(
      car,
      perCorner((corner) => car.levelling.target[corner] - heights[corner]),
    );
    if (corners.every((corner) => Math.abs(errors[corner]) <= car.levelling.deadband)) break;
    const change = (corner: Corner): number => {
      const wanted = stride * Math.max(-40, Math.min(40, errors[corner]));
      return (wanted > 0 && !up) || (wanted < 0 && !down) ? 0 : wanted;
    };
    const next = perCorner((corner) => Math.max(-reach, Math.min(reach, own[corner] + change(corner))));
    if (corners.every((corner) => next[corner] === own[corner])) break;
    own = next;
  }
  return own;
};

/** Levelling stops where a signal is at a rail or jumps, where the supply fails, and in any mode but the normal one. */
const canLevel = (car: Car): boolean => {
  if (!boots(car) || car.module.codes.length > 0) return false;
  const rails = railsOf(car);
  const level = perCorner(() => 0);
  return car.fitted.every((corner) => {
    const { shown, jump } = signalOf(car, corner, level, rails);
    return shown > 0.3 && shown < 4.7 && jump < 0.1;
  });
};

/** Whether levelling is active as the vehicle stands, switched off by hand, or has stopped by itself. */
export const levellingOf = (car: Car): 'active' | 'disabled' | 'faulted' => {
  if (car.levelling.is === 'disabled' || car.levelling.mode !== 'normal') return 'disabled';
  return canLevel(car) ? 'active' : 'faulted';
};

/** Whether the body stands where levelling put it last, whoever switched it off since. */
export const hasLevelled = (car: Car): boolean =>
  car.levelling.mode === 'normal' && (car.levelling.is === 'active' || car.levelling.worked) && canLevel(car);
