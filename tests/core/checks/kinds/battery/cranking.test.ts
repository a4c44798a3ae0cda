import { describe, expect, it } from 'vitest';
import { findingOf, judge, packProblems, said } from '../../../../support/judge.ts';

const pack = `checks:
  - id: crank
    kind: cranking
    title: Cranking
    of: battery
    temperature: battery-temperature
    in: [cranking]
    weight: look
    basis: {kind: from-memory}
    at-least: [[60 F, 9.5 V], [30 F, 9.1 V], [0 F, 8.5 V]]
    table-basis: {kind: from-memory, note: a table}`;
const at = (readings: string, conditions = 'doors: shut') =>
  findingOf(
    judge(
      pack,
      `snapshots:
  - {id: start, at: 2026-03-02T09:00, state: cranking, conditions: {${conditions}}, readings: {${readings}}}`,
    ),
    'crank',
    'battery',
  );

describe('cranking', () => {
  it('fires below the table, is silent above it and too close at it', () => {
    expect(said(at('battery: 9.20 V, battery-temperature: 60.0 °F'))).toBe('out look');
    expect(said(at('battery: 10.20 V, battery-temperature: 60.0 °F'))).toBe('within look');
    expect(said(at('battery: 9.50 V, battery-temperature: 60.0 °F'))).toBe('too-close look');
  });

  it('allows a cold battery less', () => {
    const cold = at('battery: 9.20 V, battery-temperature: 10.0 °F');
    expect(said(cold)).toBe('within look');
    expect(cold.limits).toEqual({ low: expect.closeTo(8.7, 9), high: null });
    expect(cold.basis).toEqual({ kind: 'from-memory', source: 'a table' });
  });

  it('says where the table ends', () => {
    const ends = (temperature: string) =>
      at(`battery: 9.90 V, battery-temperature: ${temperature}`).remarks.filter(
        ({ kind }) => kind === 'at-table-end',
      );
    expect(ends('80.0 °F')).toEqual([{ kind: 'at-table-end', end: 'high' }]);
    expect(ends('-10.0 °F')).toEqual([{ kind: 'at-table-end', end: 'low' }]);
    expect(ends('45.0 °F')).toEqual([]);
  });

  it('is wider by an assumed temperature, which may be in the steep part of the table', () => {
    const assumed = at('battery: 9.60 V', 'air: 5 °C');
    const read = at('battery: 9.60 V, battery-temperature: 5 °C');
    expect(assumed.remarks).toContainEqual({ kind: 'temperature-from-air', celsius: 5 });
    expect(assumed.measured?.expanded).toBeGreaterThan((read.measured?.expanded ?? 0) * 1.5);
  });

  it('wants its table in degrees and volts', () => {
    expect(packProblems(pack.replace('[30 F, 9.1 V]', '[30 V, 9.1 V]'))).toContain('wrong-unit');
    expect(packProblems(pack.replace(', [30 F, 9.1 V], [0 F, 8.5 V]', ''))).not.toEqual([]);
  });
});
