import { describe, expect, it } from 'vitest';
import type { Corner } from '../../../../src/core/corner.ts';
import { findingsOf, judgeShipped, shippedPack } from '../../../support/shipped.ts';

const packs = [shippedPack('air-supply@2.0.0')];

/** Ten hours of a closed system as told of a corner: the tank afterwards, and how far LF, RF, LR and RR moved. */
const night = (corner: Corner, tank: number, ...moves: readonly [number, number, number, number]) => {
  const [LF, RF, LR, RR] = moves.map((move) => 480 + move);
  const closed = 'conditions: {air-system: closed, air: 12 °C}';
  return findingsOf(
    judgeShipped(
      packs,
      `snapshots:
  - {id: a, at: 2026-03-01T20:00, state: rest, ${closed}, readings: {tank: 120 psi, height: {LF: 480 mm, RF: 480 mm, LR: 480 mm, RR: 480 mm}}}
  - {id: b, at: 2026-03-02T06:00, state: rest, ${closed}, readings: {tank: ${tank} psi, height: {LF: ${LF} mm, RF: ${RF} mm, LR: ${LR} mm, RR: ${RR} mm}}}`,
    ),
    'air-supply/migration',
    corner,
  ).at(-1);
};

describe('air that moves inside a closed system', () => {
  it('goes from the tank to a corner, which rises', () => {
    expect(night('LR', 40, 20, -20, 60, 20)).toMatchObject({ pattern: 'tank-to-corner', verdict: 'out' });
    // The others only lean with it.
    for (const corner of ['LF', 'RF', 'RR'] as const)
      expect(night(corner, 40, 20, -20, 60, 20)).toMatchObject({ pattern: 'none', verdict: 'within' });
  });

  it('goes from a corner back to the tank', () => {
    expect(night('LR', 170, -20, 20, -60, -20)).toMatchObject({ pattern: 'corner-to-tank', verdict: 'out' });
  });

  it('goes from corner to corner while the tank stays', () => {
    expect(night('RR', 120, -30, 30, -30, 30)).toMatchObject({ pattern: 'corner-to-corner', verdict: 'out' });
  });

  it('is none where air is lost, and where nothing changes', () => {
    expect(night('LR', 40, 0, 0, 0, 0)).toMatchObject({ pattern: 'none', verdict: 'within' });
    expect(night('LR', 120, -20, 20, -60, -20)).toMatchObject({ pattern: 'none', verdict: 'within' });
    expect(night('LR', 120, 0, 0, 0, 0)).toMatchObject({ pattern: 'none', verdict: 'within' });
  });
});
