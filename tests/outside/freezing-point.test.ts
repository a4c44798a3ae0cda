import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { freezingPoint } from '../../src/core/readings/freezing-point.ts';
import { convert } from '../../src/core/readings/units.ts';
import { projectRoot } from '../support/run.ts';

/**
 * Specific gravity and freezing point in °F. Two US Army texts agree: Ordnance subcourse OD1002, lesson 2, and TM 5-1185,
 * table III.
 */
const published = [
  [1.28, -90],
  [1.25, -62],
  [1.2, -16],
  [1.15, 5],
  [1.1, 19],
] as const;

const celsius = [...published]
  .map(([gravity, fahrenheit]) => [gravity, convert(fahrenheit, '°F', '°C')] as const)
  .sort((a, b) => a[0] - b[0]);

/** One to one, so that the charge stands for the gravity itself. */
const same = [
  [1, 1],
  [2, 2],
] as const;

describe('the freezing point of a battery', () => {
  it.each(published)('specific gravity %s freezes at %s °F', (gravity, fahrenheit) => {
    const freezes = freezingPoint(gravity, { gravity: same, celsius });
    expect(convert(freezes, '°C', '°F')).toBeCloseTo(fahrenheit, 9);
  });

  it('rises as the battery empties, and stays at its highest below the table', () => {
    const gravities = Array.from({ length: 41 }, (_, index) => 1.05 + index * 0.006);
    const points = gravities.map((gravity) => freezingPoint(gravity, { gravity: same, celsius }));
    for (const [index, point] of points.entries())
      if (index > 0) expect(point).toBeLessThanOrEqual(points[index - 1] ?? 0);
    expect(freezingPoint(1.05, { gravity: same, celsius })).toBeCloseTo(convert(19, '°F', '°C'), 9);
  });

  it('is below −50 °C for a full battery and about −10 °C for an empty one', () => {
    // Gravity by state of charge from memory, as in the packs.
    const gravity = [
      [0, 1.12],
      [25, 1.155],
      [50, 1.19],
      [75, 1.225],
      [100, 1.265],
    ] as const;
    expect(freezingPoint(100, { gravity, celsius })).toBeLessThan(-50);
    expect(freezingPoint(50, { gravity, celsius })).toBeCloseTo(convert(-11.8, '°F', '°C'), 6);
    expect(freezingPoint(0, { gravity, celsius })).toBeCloseTo(convert(13.4, '°F', '°C'), 6);
  });
});

/**
 * A third text with a table of its own: US Army TM 5-3820-256-24-4, table 2: state of charge in percent, specific gravity,
 * freezing point in °C.
 */
const byCharge = [
  [100, 1.265, -59.5],
  [75, 1.225, -37.2],
  [50, 1.19, -26.1],
  [25, 1.155, -15],
  [0, 1.12, -9.4],
] as const;

interface Freezing {
  readonly 'specific-gravity': readonly (readonly [string, number])[];
  readonly 'freezes-at': readonly (readonly [number, string])[];
}

/** Every table of freezing points that a version of the pack ships. */
const shipped = readdirSync(join(projectRoot, 'rules/supply-charging')).flatMap((file) => {
  const pack = parse(readFileSync(join(projectRoot, 'rules/supply-charging', file), 'utf8')) as {
    checks: { id: string; freezing?: Freezing }[];
  };
  return pack.checks.flatMap(({ id, freezing }) => (freezing ? [{ name: `${file} ${id}`, freezing }] : []));
});

describe.each(shipped)('the tables of $name', ({ freezing }) => {
  const points = freezing['freezes-at'].map(([gravity, text]) => [gravity, Number.parseFloat(text)] as const);
  const gravity = freezing['specific-gravity']
    .map(([charge, value]) => [Number.parseFloat(charge), value] as const)
    .sort((a, b) => a[0] - b[0]);

  it('are those of the two texts', () => {
    expect(published).toEqual(expect.arrayContaining(points));
    expect(points.length).toBeGreaterThan(3);
  });

  it('have the gravities of the third text', () => {
    expect(gravity.toReversed()).toEqual(byCharge.map(([charge, value]) => [charge, value]));
  });

  it.each(byCharge)(
    'at %s %% come to what the third text prints, within 2.5 °C',
    (charge, _gravity, freezes) => {
      expect(Math.abs(freezingPoint(charge, { gravity, celsius }) - freezes)).toBeLessThan(2.5);
    },
  );
});
