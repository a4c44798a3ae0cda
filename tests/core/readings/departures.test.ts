import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chanceHonest, departureWeights, type SignalReading } from '../../../src/core/readings/departures.ts';
import { likeliest } from '../../../src/core/readings/thirds.ts';

const limits = { signal: 0.3, tape: 10 };
const of = (value: number, standard = 0, share = 1): SignalReading => ({ value, standard, share });
const word = (signal: number, tape: number): string =>
  likeliest(departureWeights([of(signal)], { value: tape, standard: 0 }, limits));

describe('departures of signal and tape', () => {
  it.each([
    [0.3, 10, 'alike'],
    [0.301, 10.1, 'honest'],
    [-0.301, -10.1, 'honest'],
    [0.301, 10, 'signal-alone'],
    [-0.301, 0, 'signal-alone'],
    [0.3, 10.1, 'tape-alone'],
    [0, -10.1, 'tape-alone'],
    [0.301, -10.1, 'opposed'],
    [-0.301, 10.1, 'opposed'],
  ])('%s V and %s mm are %s', (signal, tape, says) => {
    expect(word(signal, tape)).toBe(says);
  });

  it('has chances that add up to one, whatever is read', () => {
    const value = fc.double({ min: -3, max: 3, noNaN: true });
    const standard = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(value, standard, value, standard, (signal, us, tape, ut) => {
        const weights = departureWeights(
          [of(signal, us, 0.25), of(-signal, us, 0.75)],
          { value: 20 * tape, standard: 20 * ut },
          limits,
        );
        expect(Object.values(weights).reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 12);
        expect(Math.min(...Object.values(weights))).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('cannot tell opposed from honest where a signal may rise or fall', () => {
    const weights = departureWeights([of(1, 0, 0.5), of(-1, 0, 0.5)], { value: 30, standard: 0 }, limits);
    expect(weights).toMatchObject({ honest: 0.5, opposed: 0.5 });
    expect(chanceHonest(weights)).toBe(0.5);
  });

  it('gives each word the product of two chances', () => {
    // One standard deviation above each limit: Φ(1) = 0.841 345.
    const weights = departureWeights([of(0.4, 0.1)], { value: 12, standard: 2 }, limits);
    expect(weights.honest).toBeCloseTo(0.841_344_746 ** 2, 8);
    expect(weights['signal-alone']).toBeCloseTo(0.841_344_746 * 0.158_655_254, 6);
  });
});
