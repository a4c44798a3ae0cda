import { type Axle, axles, type Corner } from '../../core/corner.ts';
import { fittedBy, type Vehicle } from '../../core/job.ts';
import type { Place } from '../../core/key.ts';

const cornersAt = (place: Place): readonly Corner[] =>
  place === 'front' || place === 'rear' ? axles[place satisfies Axle] : [place];

/** Why a vehicle has nothing to test at a place; null where its layout, or what it has fitted, reaches there. */
export const placeLacking = (
  place: Place,
  { layout, fitted }: Pick<Vehicle, 'layout' | 'fitted'>,
): string | null => {
  const has = [...fittedBy[layout], ...fitted];
  return cornersAt(place).some((corner) => has.includes(corner))
    ? null
    : `a vehicle with ${layout} has nothing to test at ${place}`;
};
