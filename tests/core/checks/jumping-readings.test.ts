import { describe, expect, it } from 'vitest';
import { findingOf, judge, keyOn } from '../../support/judge.ts';

const pack = (head = '') => `${head}checks:
  - {id: pair, kind: left-right, title: Left against right, of: position, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: hold, between: [-1.0 V, 1.0 V]}]}`;

const at = (head: string) =>
  findingOf(
    judge(pack(head), keyOn('{position: {LF: {low: 2.0 V, high: 3.0 V}, RF: 2.4 V}}')),
    'pair',
    'front',
  );

describe('a reading that jumps', () => {
  it('counts with its middle and half its span as scatter, where the pack takes it', () => {
    const { measured, verdict } = at('jumping-readings: taken\n');
    expect(measured?.value).toBeCloseTo(0.1, 9);
    // Half of the span as a standard uncertainty, twice that and more as the expanded one.
    expect(measured?.expanded).toBeGreaterThan(1);
    expect(measured?.expanded).toBeLessThan(1.01);
    expect(verdict).toBe('too-close');
  });

  it('has no single value for a pack that does not', () => {
    expect(at('').missing).toEqual({ why: 'jumping', channel: 'position.LF' });
  });
});
