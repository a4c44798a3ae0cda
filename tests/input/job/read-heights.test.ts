import { describe, expect, it } from 'vitest';
import { jobOf } from '../../support/judge.ts';
import { bench, faultsWith } from '../problems-of.ts';

const pairs = 'at: [1.20 V, 2.40 V], mm: [360, 420]';

const heightsOf = (heights: string, more = '') =>
  jobOf(`vehicle: {name: Shuttle 7, layout: four-corner-air, heights: ${heights}${more}}`, [bench]).vehicle
    .heights;

describe('volts and millimetres of the vehicle', () => {
  it('are kept by corner, sorted by volts', () => {
    expect(heightsOf('{LR: {at: [2.40 V, 1200 mV, 3.10 V], mm: [420, 360, 440.5], from: floor}}')).toEqual({
      LR: {
        points: [
          [1.2, 360],
          [2.4, 420],
          [3.1, 440.5],
        ],
        from: 'floor',
      },
    });
    expect(heightsOf('{RF: {at: [1 V, 2 V], mm: [420, 360], from: wheel-centre}}')).toMatchObject({
      RF: { from: 'wheel-centre' },
    });
    expect(heightsOf('{}')).toEqual({});
  });

  it.each([
    ['at: [1.20 V, 2.40 V], mm: [360]', 'wrong-value', 'give one height for each voltage'],
    [
      'at: [1.20 V, 2.40 V, 3.10 V], mm: [360, 420, 400]',
      'wrong-value',
      'a sensor only rises or only falls with the body: look for a slip, or read the pairs again',
    ],
    [
      'at: [1.20 V, 1.20 V], mm: [360, 420]',
      'wrong-value',
      'a sensor only rises or only falls with the body: look for a slip, or read the pairs again',
    ],
    ['at: [1.20 V, 2.40 V], mm: [420, 360]', 'wrong-value', 'one of the two is the wrong way round'],
    ['at: [1.20 V, 2,40 V], mm: [360, 420]', 'decimal-comma', 'write 2.40 V'],
    ['at: [1.20 psi, 2.40 V], mm: [360, 420]', 'wrong-unit', 'it can be V, mV'],
  ])('%s is refused', (wrong, code, hint) => {
    expect(faultsWith(pairs, wrong).map((fault) => fault.split(' | '))).toContainEqual([code, hint]);
  });

  it('may go either way where the sense of that sensor is not stated', () => {
    expect(
      heightsOf('{LF: {at: [1 V, 2 V], mm: [420, 360], from: floor}}', ', sensor-sense: {RF: rising}'),
    ).toHaveProperty('LF');
  });
});
