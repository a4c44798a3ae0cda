import { describe, expect, it } from 'vitest';
import { type Moved, movementWeights } from '../../../src/core/readings/command-movement.ts';
import { likeliest } from '../../../src/core/readings/thirds.ts';

const limits = { moved: 15, follows: 0.1, pair: 0.3 };
const moved = (tape: number, signal: number, senseKnown = true): Moved => ({
  tape: { value: tape, standard: 0 },
  signal: { value: signal, standard: 0 },
  senseKnown,
});
const word = (own: Moved, pair: Moved | null = null): string => likeliest(movementWeights(own, pair, limits));

describe('what a signal does while the body moves', () => {
  it.each([
    [40, 0.11, 'follows'],
    [-40, -0.11, 'follows'],
    [40, 0.1, 'still'],
    [40, -0.1, 'still'],
    [40, -0.11, 'wrong-way'],
    [-40, 0.11, 'wrong-way'],
    [15, 1, 'no-movement'],
    [15.1, 1, 'follows'],
  ])('%s mm and %s V: %s', (tape, signal, says) => {
    expect(word(moved(tape, signal))).toBe(says);
  });

  it('does not move enough where its pair goes over 30 % further for each mm', () => {
    expect(word(moved(40, 0.71), moved(40, 1))).toBe('follows');
    expect(word(moved(40, 0.69), moved(40, 1))).toBe('still');
    expect(word(moved(40, 1), moved(40, 0.69))).toBe('follows');
    // The pair moved twice as far, and its signal with it.
    expect(word(moved(40, 0.5), moved(80, 1))).toBe('follows');
    // One that hardly moved says nothing of the other.
    expect(word(moved(40, 0.5), moved(10, 1))).toBe('follows');
  });

  it('cannot tell the right way where the sense is not known', () => {
    expect(movementWeights(moved(40, -1, false), null, limits)).toMatchObject({
      follows: 0.5,
      'wrong-way': 0.5,
    });
    expect(word(moved(40, 0, false))).toBe('still');
  });
});
