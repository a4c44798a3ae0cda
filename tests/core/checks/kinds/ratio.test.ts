import { describe, expect, it } from 'vitest';
import { findingOf, judge, keyOn, said } from '../../../support/judge.ts';

const pack = `checks:
  - {id: share, kind: ratio, title: Share, of: plug-signal, to: reference, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, between: [10 %, 90 %]}]}`;
const at = (readings: string) => findingOf(judge(pack, keyOn(readings)), 'share', 'LF');

describe('ratio', () => {
  it('fires outside the share, and is silent inside it', () => {
    expect(said(at('{plug-signal: {LF: 0.30 V}, reference: 5.00 V}'))).toBe('out look');
    expect(said(at('{plug-signal: {LF: 2.40 V}, reference: 4.80 V}'))).toBe('within look');
    expect(said(at('{plug-signal: {LF: 0.50 V}, reference: 5.00 V}'))).toBe('too-close look');
  });

  it('judges the share and not the volts: a low reference with its signal is no fault of the sensor', () => {
    expect(at('{plug-signal: {LF: 0.40 V}, reference: 3.00 V}').measured?.value).toBeCloseTo(13.333, 3);
    expect(said(at('{plug-signal: {LF: 0.40 V}, reference: 3.00 V}'))).toBe('within look');
  });

  it('takes a plug’s own reference where it was read, else the vehicle’s', () => {
    expect(at('{plug-signal: {LF: 2.00 V}, reference: {LF: 4.00 V}}').measured?.value).toBeCloseTo(50, 10);
    expect(at('{plug-signal: {LF: 2.00 V}, reference: 5.00 V}').measured?.value).toBeCloseTo(40, 10);
  });

  it('loses the meter’s scale error, which is common to both', () => {
    const scale = (gain: string) =>
      findingOf(
        judge(
          pack,
          `instruments: {meter: {accuracy: ${gain} % + 0.00 V}}\n${keyOn('{plug-signal: {LF: 2.50 V}, reference: 5.00 V}')}`,
        ),
        'share',
        'LF',
      ).measured?.expanded;
    expect(scale('5')).toBeCloseTo(scale('0.1') ?? 0, 9);
  });

  it('wants one instrument for both', () => {
    expect(at('{plug-signal: {LF: {value: 2.40 V, by: module}}, reference: 4.80 V}').missing).toMatchObject({
      why: 'condition-differs',
      condition: 'instrument',
      is: 'module and meter',
    });
  });

  it('is not taken on a reference that may be nought', () => {
    expect(at('{plug-signal: {LF: 0.02 V}, reference: 0.05 V}').missing).toEqual({
      why: 'reference-near-zero',
      channel: 'reference',
    });
  });

  it('is not taken without its reference', () => {
    expect(at('{plug-signal: {LF: 2.40 V}}').missing).toMatchObject({ why: 'no-reading' });
  });

  it('gives advice on its volts in volts, not in per cent', () => {
    const finding = findingOf(
      judge(
        pack,
        `instruments: {meter: {accuracy: 0 % + 0.00 V}}\n${keyOn('{plug-signal: {LF: 0.5 V}, reference: 4.8 V}')}`,
      ),
      'share',
      'LF',
    );
    expect(finding.settle).toMatchObject({ how: 'finer-reading', unit: 'V' });
  });
});
