import { describe, expect, it } from 'vitest';
import { migrationWeights } from '../../../src/core/readings/air-migration.ts';
import { likeliest } from '../../../src/core/readings/thirds.ts';

const limits = { tank: 3, corner: 1.5 };
const exact = (value: number) => ({ value, standard: 0 });
const word = (tank: number, heave: number, roll = 0, pitch = 0): string =>
  likeliest(
    migrationWeights(
      { tank: exact(tank), heave: exact(heave), roll: exact(roll), pitch: exact(pitch) },
      limits,
    ),
  );

describe('air that moves inside a closed system', () => {
  // A corner at its limit of 1.5 mm/h lifts the mean by a third of it, 0.5 mm/h.
  it.each([
    [-3.1, 0.51, 0.51, 'tank-to-corner'],
    [-3, 0.51, 0.51, 'none'],
    [-3.1, 0.5, 0.5, 'none'],
    [3.1, -0.51, 0, 'corner-to-tank'],
    [3.1, -0.5, 0, 'none'],
    [0, 0, 0.51, 'corner-to-corner'],
    [0, 0, 0.5, 'none'],
    [3, 0.5, -0.51, 'corner-to-corner'],
    [-10, -2, 1, 'none'],
    [-10, 0, 0, 'none'],
    [0, -2, 2, 'none'],
  ])('tank %s psi/h, mean %s mm/h, lean %s mm/h: %s', (tank, heave, roll, says) => {
    expect(word(tank, heave, roll)).toBe(says);
    expect(word(tank, heave, 0, roll)).toBe(says);
  });

  it('says how sure it is', () => {
    const weights = migrationWeights(
      { tank: { value: -5, standard: 2 }, heave: exact(2), roll: exact(2), pitch: exact(2) },
      limits,
    );
    // Φ(1), one standard deviation beyond the limit.
    expect(weights['tank-to-corner']).toBeCloseTo(0.841_344_746, 8);
    expect(weights.none).toBeCloseTo(0.158_655_254, 8);
  });
});
