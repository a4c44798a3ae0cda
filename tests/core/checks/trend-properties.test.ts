import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/core/assess.ts';
import type { Snapshot } from '../../../src/core/job.ts';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import { findingOf, instant, jobOf, packOf } from '../../support/judge.ts';

const packs = [
  packOf(`channels:
  - {id: height, per: corner, title: height by tape, quantity: length, unit: mm, by: tape, depends: [air-spring]}
  - {id: tank, title: tank pressure, quantity: pressure, unit: psi, by: gauge, depends: [compressor]}
checks:
  - {id: leak, kind: leak-down, title: Leak-down, of: tank, in: [rest], basis: {kind: from-memory}, tiers: [{weight: look, at-most: 3 psi/h}]}
  - {id: pump, kind: pump-up, title: Pump-up, of: tank, in: [running], basis: {kind: from-memory}, tiers: [{weight: look, at-least: 15 psi/min}]}
  - {id: drop, kind: height-drop, title: Height lost, of: height, in: [rest], basis: {kind: from-memory}, tiers: [{weight: look, at-most: 5 mm/h}]}`),
];
const job = jobOf('snapshots: []', packs);
const start = instant('2026-03-02T00:00:00');
const hour = 3_600_000;

interface Reading {
  readonly hours: number;
  readonly value: number;
  readonly air: number;
}

const typed = (value: number, resolution: number) => ({ value, resolution, text: String(value) });

/** Snapshots of one run for one of the three checks, given in any order. */
const run = (readings: readonly Reading[], check: 'leak' | 'pump' | 'drop') => {
  const key = check === 'drop' ? 'height.LF' : 'tank';
  const snapshots = readings.map(
    ({ hours, value, air }, index): Snapshot => ({
      id: `s${index}`,
      stamp: { at: start + hours * hour, resolution: 1000 },
      state: check === 'pump' ? 'running' : 'rest',
      conditions: {
        words: check === 'pump' ? { compressor: 'on' } : { 'air-system': 'closed' },
        air: typed(air, 0.1),
        rested: null,
        asleep: null,
        barometer: null,
        altitude: null,
      },
      readings: new Map([
        [key, { kind: 'values', values: [typed(value, 1)], by: check === 'drop' ? 'tape' : 'gauge' }],
      ]),
      lamp: null,
      codes: null,
    }),
  );
  const finding = findingOf(
    assess({ ...job, snapshots }, preparePacks(packs), start + 1e4 * hour),
    check,
    check === 'drop' ? 'LF' : 'tank',
  );
  if (!finding.measured) throw new Error(JSON.stringify(finding.missing));
  return { ...finding.measured, verdict: finding.verdict, settle: finding.settle, inside: finding.inside };
};

const reading = fc.record({
  hours: fc.integer({ min: 0, max: 480 }).map((steps) => steps / 10),
  // A height under 50 mm would not be believed, whatever the tape is out by.
  value: fc.integer({ min: 80, max: 180 }),
  air: fc.integer({ min: -20, max: 45 }),
});
const series = fc.uniqueArray(reading, { minLength: 3, maxLength: 8, selector: ({ hours }) => hours });
const steadyAir = series.map((list) => list.map((one) => ({ ...one, air: 12 })));
const anyTrend = fc.constantFrom('leak', 'pump', 'drop') as fc.Arbitrary<'leak' | 'pump' | 'drop'>;

describe('a trend', () => {
  it('is the same in whatever order the file has its snapshots', () => {
    const shuffled = series.chain((list) =>
      fc.tuple(fc.constant(list), fc.shuffledSubarray(list, { minLength: list.length })),
    );
    fc.assert(
      fc.property(shuffled, anyTrend, ([list, other], check) => {
        expect(run(other, check)).toEqual(run(list, check));
      }),
    );
  });

  it('over a time as many times as long is as many times as slow', () => {
    fc.assert(
      fc.property(steadyAir, anyTrend, fc.integer({ min: 2, max: 20 }), (list, check, times) => {
        const slower = run(
          list.map((one) => ({ ...one, hours: one.hours * times })),
          check,
        );
        expect(slower.value * times).toBeCloseTo(run(list, check).value, 6);
      }),
    );
  });

  it('is blind to a fixed error of its gauge or tape', () => {
    fc.assert(
      fc.property(steadyAir, anyTrend, fc.integer({ min: -20, max: 20 }), (list, check, offset) => {
        const shifted = run(
          list.map((one) => ({ ...one, value: one.value + offset })),
          check,
        );
        const plain = run(list, check);
        expect(shifted.value).toBeCloseTo(plain.value, 8);
        expect(shifted.expanded).toBeCloseTo(plain.expanded, check === 'leak' ? 1 : 8);
      }),
    );
  });

  it('turns its sign with that of the change', () => {
    fc.assert(
      fc.property(steadyAir, anyTrend, (list, check) => {
        const turned = run(
          list.map((one) => ({ ...one, value: 240 - one.value })),
          check,
        );
        expect(turned.value).toBeCloseTo(-run(list, check).value, 8);
      }),
    );
  });
});

describe('leak-down', () => {
  /** What a gauge shows of shut-in air at another temperature; psi. */
  const atAir = (gauge: number, from: number, to: number): number =>
    ((gauge + 101.325 / 6.894_757_293_168) * (to + 273.15)) / (from + 273.15) - 101.325 / 6.894_757_293_168;

  it('of air that only warms and cools is nothing, and within', () => {
    fc.assert(
      fc.property(series, fc.integer({ min: 60, max: 180 }), (list, gauge) => {
        fc.pre(
          Math.max(...list.map(({ hours }) => hours)) - Math.min(...list.map(({ hours }) => hours)) >= 2,
        );
        const judged = run(
          list.map((one) => ({ ...one, value: atAir(gauge, 20, one.air) })),
          'leak',
        );
        expect(judged.value).toBeCloseTo(0, 8);
        expect(judged.verdict).toBe('within');
      }),
    );
  });

  it('is the same loss at any temperature: what was lost shows through', () => {
    fc.assert(
      fc.property(
        series,
        fc.integer({ min: 120, max: 180 }),
        fc.integer({ min: 1, max: 20 }),
        (list, gauge, tenths) => {
          const [earliest] = [...list].sort((a, b) => a.hours - b.hours);
          const reference = earliest?.air ?? 0;
          const falling = list.map((one) => ({
            ...one,
            value: atAir(gauge - (tenths / 10) * one.hours, reference, one.air),
          }));
          expect(run(falling, 'leak').value).toBeCloseTo(tenths / 10, 6);
        },
      ),
    );
  });
});
