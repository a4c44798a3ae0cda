import { describe, expect, it } from 'vitest';
import { findingOf, judge, keyOn, packProblems, said } from '../../../support/judge.ts';

const common = 'of: position, in: [key-on], basis: {kind: common-practice}, reference: 5 V';
const pack = `checks:
  - {id: axle, kind: left-right, title: Left less right, ${common}, without-sense: look, tiers: [{weight: look, between: [-0.5 V, 0.5 V]}, {weight: hold, between: [-1.0 V, 1.0 V]}]}
  - {id: ends, kind: front-rear, title: Front less rear, ${common}, without-equal-gain: note, tiers: [{weight: look, between: [-1.0 V, 1.0 V]}]}
  - {id: diagonal, kind: diagonal, title: Diagonal, ${common}, without-sense: look, without-equal-gain: note, tiers: [{weight: look, between: [-1.0 V, 1.0 V]}]}`;

const stated = ', sensor-sense: {LF: rising, RF: rising, LR: rising, RR: rising}, sensor-gain: equal';
const mixed = ', sensor-sense: {LF: rising, RF: falling, LR: rising, RR: falling}, sensor-gain: equal';

const sheetOf = (position: string, vehicle = stated, layout = 'four-corner-air') =>
  judge(pack, `vehicle: {name: Shuttle 7, layout: ${layout}${vehicle}}\n${keyOn(`{position: ${position}}`)}`);

describe('left against right', () => {
  it.each([
    ['{LR: 1.12 V, RR: 2.61 V}', 'out hold', -1.49],
    ['{LR: 1.90 V, RR: 2.61 V}', 'out look', -0.71],
    ['{LR: 2.11 V, RR: 2.61 V}', 'too-close look', -0.5],
    ['{LR: 2.40 V, RR: 2.61 V}', 'within look', -0.21],
    ['{LR: 3.80 V, RR: 2.61 V}', 'out hold', 1.19],
  ])('%s: %s', (position, expected, value) => {
    const finding = findingOf(sheetOf(position), 'axle', 'rear');
    expect(said(finding)).toBe(expected);
    expect(finding.measured?.value).toBeCloseTo(value, 10);
    expect(finding.channels).toEqual(['position.LR', 'position.RR']);
  });

  it('turns a falling sensor to read upwards', () => {
    const level = findingOf(sheetOf('{LF: 2.00 V, RF: 3.00 V}', mixed), 'axle', 'front');
    expect(level.measured?.value).toBeCloseTo(0, 10);
    expect(said(level)).toBe('within look');
    const leaning = findingOf(sheetOf('{LF: 2.00 V, RF: 2.00 V}', mixed), 'axle', 'front');
    expect(leaning.measured?.value).toBeCloseTo(-1, 10);
  });

  it('cancels a meter’s offset and scale between alike sensors and adds them up between unlike ones', () => {
    const volts = '{value: 2.50 V, by: meter}';
    const expanded = (vehicle: string) =>
      findingOf(sheetOf(`{LF: ${volts}, RF: ${volts}}`, vehicle), 'axle', 'front').measured?.expanded;
    const digits = 0.01 / Math.sqrt(6);
    const fixed = 2 * (0.02 + 0.005 * 2.5);
    expect(expanded(stated)).toBeCloseTo(2 * digits, 12);
    expect(expanded(mixed)).toBeCloseTo(2 * Math.hypot(fixed / Math.sqrt(3), digits), 12);
  });

  it('has nothing cancel between two channels of the module, which converts each by itself', () => {
    const expanded = (vehicle: string) =>
      findingOf(sheetOf('{LF: 2.50 V, RF: 2.50 V}', vehicle), 'axle', 'front').measured?.expanded;
    const both = 2 * Math.hypot((Math.SQRT2 * 0.05) / Math.sqrt(3), 0.01 / Math.sqrt(6));
    expect(expanded(stated)).toBeCloseTo(both, 12);
    expect(expanded(mixed)).toBeCloseTo(both, 12);
  });

  it('is never above look, with a remark, where the sense of the sensors is not stated', () => {
    const finding = findingOf(sheetOf('{LR: 1.12 V, RR: 2.61 V}', ''), 'axle', 'rear');
    expect(said(finding)).toBe('out look');
    expect(finding.limits).toEqual({ low: -1, high: 1 });
    expect(finding.remarks).toEqual([{ kind: 'sense-not-stated' }]);
  });

  it('asks for the sense of its own two sensors only', () => {
    const rear = ', sensor-sense: {LR: rising, RR: rising}';
    const sheet = sheetOf('{LF: 1.12 V, RF: 2.61 V, LR: 1.12 V, RR: 2.61 V}', rear);
    expect(said(findingOf(sheet, 'axle', 'front'))).toBe('out look');
    expect(said(findingOf(sheet, 'axle', 'rear'))).toBe('out hold');
  });

  it('is not taken without one side, and names it', () => {
    expect(findingOf(sheetOf('{LR: 1.12 V}'), 'axle', 'rear').missing).toMatchObject({
      why: 'no-reading',
      channels: ['position.RR'],
    });
    expect(findingOf(sheetOf('{LR: 1.12 V, RR: {low: 1 V, high: 2 V}}'), 'axle', 'rear').missing).toEqual({
      why: 'jumping',
      channel: 'position.RR',
    });
  });

  it('advises a last digit that is enough for both readings together', () => {
    const finding = findingOf(sheetOf('{LR: 1.9 V, RR: 2.6 V}'), 'axle', 'rear');
    expect(said(finding)).toBe('out look');
    const metered = '{LR: {value: 2.1 V, by: meter}, RR: {value: 2.6 V, by: meter}}';
    const close = findingOf(sheetOf(metered), 'axle', 'rear');
    // The bare difference lies on the limit; on which side, tenths of a volt cannot show.
    expect(close.settle).toEqual({ how: 'finer-reading', placeValue: 0.01, unit: 'V' });
  });
});

describe('front against rear', () => {
  it('compares the means of the axles', () => {
    const low = findingOf(sheetOf('{LF: 2.60 V, RF: 2.40 V, LR: 1.30 V, RR: 1.10 V}'), 'ends', 'body');
    expect(said(low)).toBe('out look');
    expect(low.measured?.value).toBeCloseTo(1.3, 10);
    const level = findingOf(sheetOf('{LF: 2.60 V, RF: 2.40 V, LR: 2.30 V, RR: 2.10 V}'), 'ends', 'body');
    expect(said(level)).toBe('within look');
  });

  it('is only a note unless equal gain is stated', () => {
    const sense = ', sensor-sense: {LF: rising, RF: rising, LR: rising, RR: rising}';
    const finding = findingOf(sheetOf('{LF: 2.6 V, RF: 2.4 V, LR: 1.3 V, RR: 1.1 V}', sense), 'ends', 'body');
    expect(said(finding)).toBe('out note');
    expect(finding.remarks).toEqual([{ kind: 'gain-not-stated' }]);
  });
});

describe('the diagonal', () => {
  it('is (LF + RR) − (RF + LR): one corner off shows, a lean or a pitch does not', () => {
    const value = (position: string) => findingOf(sheetOf(position), 'diagonal', 'body').measured?.value;
    expect(value('{LF: 2.50 V, RF: 2.50 V, LR: 1.20 V, RR: 2.50 V}')).toBeCloseTo(1.3, 10);
    expect(value('{LF: 2.00 V, RF: 2.80 V, LR: 2.00 V, RR: 2.80 V}')).toBeCloseTo(0, 10);
    expect(value('{LF: 2.00 V, RF: 2.00 V, LR: 2.90 V, RR: 2.90 V}')).toBeCloseTo(0, 10);
    expect(value('{LF: 2.30 V, RF: 2.20 V, LR: 2.10 V, RR: 2.50 V}')).toBeCloseTo(0.5, 10);
  });

  it('fires and is silent', () => {
    expect(
      said(findingOf(sheetOf('{LF: 2.50 V, RF: 2.50 V, LR: 1.20 V, RR: 2.50 V}'), 'diagonal', 'body')),
    ).toBe('out look');
    expect(
      said(findingOf(sheetOf('{LF: 2.50 V, RF: 2.50 V, LR: 2.20 V, RR: 2.50 V}'), 'diagonal', 'body')),
    ).toBe('within look');
  });

  it('takes the lighter of two caps', () => {
    const finding = findingOf(
      sheetOf('{LF: 2.50 V, RF: 2.50 V, LR: 1.20 V, RR: 2.50 V}', ''),
      'diagonal',
      'body',
    );
    expect(said(finding)).toBe('out note');
    expect(finding.remarks).toEqual([{ kind: 'sense-not-stated' }, { kind: 'gain-not-stated' }]);
  });
});

describe('contrasts on other vehicles', () => {
  it('are made of fitted corners only', () => {
    const names = sheetOf('{LR: 2.50 V, RR: 2.50 V}', stated, 'rear-air-assist').findings.map(
      ({ check, subject }) => `${check} ${subject}`,
    );
    expect(names).toEqual(['bench/axle rear']);
  });

  it('want a channel that is read at each corner', () => {
    expect(packProblems(pack.replace('of: position', 'of: supply'))).toContain('wrong-value');
  });
});
