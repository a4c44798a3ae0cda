import { describe, expect, it } from 'vitest';
import { findingOf, judge, keyOn, said } from '../../../support/judge.ts';

const pack = `checks:
  - {id: steady, kind: steadiness, title: Steady, of: position, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, at-most: 0.05 V}]}`;
const at = (reading: string, more = '') =>
  findingOf(judge(pack, `${more}${keyOn(`{position: {LF: ${reading}}}`)}`), 'steady', 'LF');

describe('steadiness', () => {
  it('fires on repeats that spread, and is silent on those that agree', () => {
    expect(said(at('[2.40 V, 2.55 V, 2.48 V]'))).toBe('out look');
    expect(said(at('[2.48 V, 2.49 V, 2.48 V]'))).toBe('within look');
    expect(said(at('[2.48 V, 2.53 V]'))).toBe('too-close look');
  });

  it('fires on a signal typed as jumping', () => {
    expect(at('{low: 0.90 V, high: 2.60 V}')).toMatchObject({
      verdict: 'out',
      measured: { value: expect.closeTo(1.7, 10) },
    });
  });

  it('forgives the instrument’s offset, not its digits', () => {
    const { measured } = at('[2.48 V, 2.50 V]');
    expect(measured?.expanded).toBeCloseTo((2 * Math.SQRT2 * 0.01) / Math.sqrt(12), 12);
  });

  it('goes by what the instrument shows', () => {
    const finer = at('[2.48 V, 2.50 V]', 'instruments: {module: {shows: 0.001 V}}\n');
    expect(finer.measured?.expanded).toBeCloseTo((2 * Math.SQRT2 * 0.001) / Math.sqrt(12), 12);
  });

  it('counts the scale error of what was seen to jump', () => {
    const finding = at('{low: 1.00 V, high: 3.00 V}', 'instruments: {module: {accuracy: 2 % + 0.05 V}}\n');
    const digits = (Math.SQRT2 * 0.01) / Math.sqrt(12);
    expect(finding.measured?.expanded).toBeCloseTo(2 * Math.hypot(digits, 0.04 / Math.sqrt(3)), 12);
  });

  it('wants more than one reading', () => {
    expect(at('2.48 V').missing).toEqual({ why: 'one-reading', channel: 'position.LF' });
    expect(at('[2.48 V]').missing).toEqual({ why: 'one-reading', channel: 'position.LF' });
  });

  it('takes one value after a repair for a signal that stands, where it was read several times before', () => {
    const job = (first: string, did: string): string =>
      `${keyOn(`{position: {LF: ${first}}}`)}  - {id: after, at: 2026-03-02T12:00, state: key-on, readings: {position: {LF: 2.48 V}}}\nlog: [{at: 2026-03-02T10:00, did: ${did}, what: sensor.LF}]\n`;
    const after = (first: string, did: string) =>
      findingOf(judge(pack, job(first, did)), 'steady', 'LF', 'after');
    expect(said(after('[2.47 V, 2.48 V]', 'replaced'))).toBe('within look');
    const told = judge(pack, job('[2.47 V, 2.48 V]', 'disconnected'));
    expect(findingOf(told, 'steady', 'LF').snapshot).toBe('as-found');
    for (const jumping of ['{low: 0.90 V, high: 2.60 V}', '[0.90 V, 2.60 V]'])
      expect(said(findingOf(judge(pack, job(jumping, 'replaced')), 'steady', 'LF'))).toBe('out look');
    const never = judge(pack, job('2.47 V', 'replaced'));
    expect(findingOf(never, 'steady', 'LF').missing?.why).toBe('one-reading');
  });

  it('passes on why there is none', () => {
    expect(at('{why: plug seized}').missing).toMatchObject({ why: 'could-not-be-taken' });
    expect(findingOf(judge(pack, keyOn('{}')), 'steady', 'LF').missing).toMatchObject({ why: 'no-reading' });
  });
});
