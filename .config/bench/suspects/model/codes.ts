import type { Corner } from '../../../../src/core/corner.ts';
import { shownPressure } from './air.ts';
import { boots, railsOf } from './rails.ts';
import { signalOf } from './signals.ts';
import { standAt } from './stand.ts';
import { moduleSupply } from './supply.ts';
import type { Car } from './vehicle.ts';

/** A code as a module stores it, and what it means. The fleet's codes are invented. */
export interface StoredCode {
  readonly code: string;
  readonly means: string;
  /** The corner or circuit that its text names. */
  readonly at?: string;
  /** Set where another module stores it. */
  readonly in?: 'other';
}

const numberOf = { LF: '1', RF: '2', LR: '3', RR: '4' } as const;

/** What a module says of a signal that it cannot believe: at a rail it may tell open from short, by its own bias. */
const meaningOf = ({ module }: Car, shown: number): string => {
  if (!module.tellsCircuits) return 'signal-range';
  const high = shown > 2.5;
  return high === module.biasedHigh ? 'circuit-open' : 'circuit-short';
};

/** Signals that a module cannot believe: outside 5 to 95 % of what it measures against, or jumping there. */
const signalCodes = (car: Car): StoredCode[] => {
  const { wheel } = standAt(car, 'key-on');
  const rails = railsOf(car);
  return car.fitted.flatMap((corner: Corner): StoredCode[] => {
    const { shown, jump } = signalOf(car, corner, wheel, rails);
    const number = numberOf[corner];
    if (shown < 0.25 || shown > 4.75)
      return [{ code: `C3A2${number}`, means: meaningOf(car, shown), at: corner }];
    if (shown - jump < 0.15 || shown + jump > 4.85)
      return [{ code: `C3A3${number}`, means: 'signal-range', at: corner }];
    return [];
  });
};

/** A module watches its supply between 10 and 16 V, and over 8 V while cranking, and its reference within half a volt. */
const supplyCodes = (car: Car): StoredCode[] => {
  const shown = moduleSupply(car, 'running').shown;
  const dips = moduleSupply(car, 'cranking').pins < 8;
  const reference = railsOf(car).regulator;
  return [
    ...(shown < 10 || shown > 16 || dips ? [{ code: 'C3B02', means: 'supply-range', at: 'supply' }] : []),
    ...(Math.abs(reference - 5) > 0.5 ? [{ code: 'C3B05', means: 'supply-range' }] : []),
  ];
};

/** Other modules miss this one where the network reflects, where it restarts for want of volts, and where it is dead. */
const networkCodes = (car: Car): StoredCode[] => {
  const reflects = car.network < 45 || car.network > 75;
  const restarts = moduleSupply(car, 'cranking').pins < 5 || moduleSupply(car, 'running').pins < 9.5;
  return reflects || restarts ? [{ code: 'C3F31', means: 'communication', in: 'other' }] : [];
};

const damperCodes = (car: Car): StoredCode[] =>
  car.fitted.flatMap((corner) =>
    car.damper[corner].ohms > 1000
      ? [{ code: `C3A7${numberOf[corner]}`, means: 'circuit-open', at: corner }]
      : [],
  );

const airCodes = (car: Car): StoredCode[] => [
  ...(car.compressor.heat > 1 ? [{ code: 'C3C11', means: 'over-temperature', at: 'compressor' }] : []),
  ...(car.layout === 'four-corner-air' && shownPressure(car, car.tank.psi) < 0.42 * car.compressor.rated
    ? [{ code: 'C3C14', means: 'pressure', at: 'tank' }]
    : []),
];

/** The codes that a vehicle has stored, by what its modules see. One that is dead stores none of its own. */
export const codesOf = (car: Car): StoredCode[] =>
  boots(car)
    ? [
        ...signalCodes(car),
        ...supplyCodes(car),
        ...networkCodes(car),
        ...damperCodes(car),
        ...car.module.codes.map((means, place) => ({ code: `C3A4${place}`, means })),
        ...airCodes(car),
      ]
    : networkCodes(car);
