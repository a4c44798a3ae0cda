import { bodyOf, railsOf, signalOf } from './signals.ts';
import { moduleSupply } from './supply.ts';
import type { Car } from './vehicle.ts';

/** A code as the module stores it, and what it means. The fleet's codes are invented. */
export interface StoredCode {
  readonly code: string;
  readonly means: string;
  /** The corner that its text names. */
  readonly at?: string;
}

const numberOf = { LF: '1', RF: '2', LR: '3', RR: '4' } as const;

/** A signal that its module cannot believe: outside 5 to 95 % of what it measures against. */
const signalCodes = (car: Car): StoredCode[] => {
  const body = bodyOf(car, 0);
  return car.fitted.flatMap((corner) => {
    const { shown, jump } = signalOf(car, corner, body[corner]);
    const far = shown < 0.25 || shown > 4.75 || shown - jump < 0.1 || shown + jump > 4.9;
    return far ? [{ code: `C1A2${numberOf[corner]}`, means: 'signal-range', at: corner }] : [];
  });
};

/** A module watches its supply between 10 and 16 V, and its reference within half a volt. */
const supplyCodes = (car: Car): StoredCode[] => {
  const shown = moduleSupply(car, 'running').shown;
  const reference = railsOf(car).regulator;
  return [
    ...(shown < 10 || shown > 16 ? [{ code: 'C1B02', means: 'supply-range' }] : []),
    ...(Math.abs(reference - 5) > 0.5 ? [{ code: 'C1B05', means: 'supply-range' }] : []),
  ];
};

/** Other modules miss this one where the network reflects, or where it restarts for want of volts. */
const networkCodes = (car: Car): StoredCode[] => {
  const reflects = car.network < 45 || car.network > 75;
  const restarts = moduleSupply(car, 'cranking').pins < 6.5 || moduleSupply(car, 'running').pins < 9.5;
  return reflects || restarts ? [{ code: 'U0131', means: 'communication' }] : [];
};

const damperCodes = (car: Car): StoredCode[] =>
  car.fitted.flatMap((corner) =>
    car.damper[corner] > 1000 ? [{ code: `C1A7${numberOf[corner]}`, means: 'circuit-open', at: corner }] : [],
  );

const ownCodes = (car: Car): StoredCode[] =>
  car.module.codes.map((means, place) => ({ code: `C1A4${place}`, means }));

/** The codes that a vehicle has stored, by what its module sees. */
export const codesOf = (car: Car): StoredCode[] => [
  ...signalCodes(car),
  ...supplyCodes(car),
  ...networkCodes(car),
  ...damperCodes(car),
  ...ownCodes(car),
  ...(car.compressor.heat > 1 ? [{ code: 'C1C11', means: 'over-temperature' }] : []),
  ...(car.layout === 'four-corner-air' && car.tank.psi < 80 ? [{ code: 'C1C14', means: 'pressure' }] : []),
];
