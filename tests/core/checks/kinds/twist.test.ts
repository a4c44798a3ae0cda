import { describe, expect, it } from 'vitest';
import { findingOf, judge, keyOn, said } from '../../../support/judge.ts';

const pack = `channels:
  - {id: position, per: corner, title: position signal, quantity: voltage, unit: V, by: module, depends: [sensor]}
  - {id: height, per: corner, title: height by tape, quantity: length, unit: mm, by: tape, depends: [air-spring]}
checks:
  - {id: twist, kind: twist, title: Twist, of: position, tape: height, in: [key-on], needs: {floor: level}, basis: {kind: from-memory},
     tiers: [{weight: look, between: [-5 mm, 5 mm]}]}`;

const floor = 'conditions: {floor: level, heights-from: floor}';
const table = (from: string) => `{at: [1.00 V, 3.00 V], mm: [700, 800], from: ${from}}`;
const tables = (from: string) =>
  `, heights: {LF: ${table(from)}, RF: ${table(from)}, LR: ${table(from)}, RR: ${table(from)}}`;

const twistOf = (readings: string, conditions = floor, heights = '', layout = 'four-corner-air') =>
  findingOf(
    judge(
      pack,
      `vehicle: {name: Shuttle 7, layout: ${layout}${heights}}\n${keyOn(readings, `    ${conditions}`)}`,
    ),
    'twist',
    'body',
  );

const byTape = (LF: number, RF: number, LR: number, RR: number, conditions = floor, heights = '') =>
  twistOf(
    `{height: {LF: ${LF} mm, RF: ${RF} mm, LR: ${LR} mm, RR: ${RR} mm}, position: {LF: 2.00 V, RF: 2.00 V, LR: 2.00 V, RR: 2.00 V}}`,
    conditions,
    heights,
  );

describe('twist', () => {
  it.each([
    [750, 750, 750, 750, 'within look', 0],
    [770, 750, 750, 750, 'too-close look', 5],
    [780, 750, 750, 750, 'out look', 7.5],
    [750, 780, 750, 750, 'out look', -7.5],
    [750, 750, 762, 750, 'within look', -3],
    [780, 760, 740, 720, 'within look', 0],
  ])('tape %s %s %s %s: %s', (LF, RF, LR, RR, expected, warp) => {
    const finding = byTape(LF, RF, LR, RR);
    expect(said(finding)).toBe(expected);
    expect(finding.measured).toMatchObject({ value: expect.closeTo(warp, 9), unit: 'mm' });
    expect(finding.channels).toEqual(['height.LF', 'height.RF', 'height.LR', 'height.RR']);
  });

  it('says how the body stands: mean height, side to side, end to end', () => {
    const [stance] = byTape(742, 754, 746, 758).remarks;
    expect(stance).toMatchObject({ kind: 'stance', by: 'tape', height: 750, leftUp: -12, noseUp: -4 });
    // A tape is laid anew at each corner: four independent errors of ± 3 mm, and four last digits of 1 mm.
    const each = Math.hypot(3 / Math.sqrt(3), 1 / Math.sqrt(12));
    const expanded = 2 * Math.sqrt(4 * 0.25) * each;
    expect(stance).toMatchObject({
      expanded: { leftUp: expect.closeTo(expanded, 9), noseUp: expect.closeTo(expanded, 9) },
    });
  });

  it('goes by sensors where no tape was taken and all four are known from the floor', () => {
    const finding = twistOf(
      '{position: {LF: 2.75 V, RF: 2.00 V, LR: 2.00 V, RR: 2.00 V}}',
      'conditions: {floor: level}',
      tables('floor'),
    );
    expect(said(finding)).toBe('out look');
    expect(finding.measured?.value).toBeCloseTo(9.375, 9);
    // The module converts each channel by itself: its fixed errors do not cancel.
    const each = Math.hypot(0.05 / Math.sqrt(3), 0.01 / Math.sqrt(12));
    expect(finding.measured?.expanded).toBeCloseTo(2 * 0.5 * 50 * each, 5);
    expect(finding.channels).toEqual(['position.LF', 'position.RF', 'position.LR', 'position.RR']);
    expect(finding.remarks).toMatchObject([{ kind: 'stance', by: 'sensors', leftUp: 18.75, noseUp: 18.75 }]);
  });

  it('names corners whose height is extrapolated', () => {
    const finding = twistOf(
      '{position: {LF: 3.10 V, RF: 3.00 V, LR: 0.90 V, RR: 1.00 V}}',
      'conditions: {floor: level}',
      tables('floor'),
    );
    expect(finding.remarks).toContainEqual({ kind: 'extrapolated', corners: ['LF', 'LR'] });
  });

  it('takes the tape before the sensors', () => {
    expect(byTape(750, 750, 750, 750, floor, tables('floor')).remarks[0]).toMatchObject({ by: 'tape' });
    const wheels = 'conditions: {floor: level, heights-from: wheel-centre}';
    expect(byTape(350, 350, 350, 350, wheels, tables('floor')).remarks[0]).toMatchObject({ by: 'sensors' });
  });

  it('is not taken off a level floor, or where nobody said', () => {
    const missing = (conditions: string) => byTape(750, 750, 750, 750, conditions).missing;
    expect(missing('conditions: {heights-from: floor}')).toMatchObject({
      why: 'condition-not-stated',
      condition: 'floor',
    });
    expect(missing('conditions: {floor: sloped, heights-from: floor}')).toMatchObject({
      why: 'condition-differs',
      condition: 'floor',
    });
    expect(missing('conditions: {floor: level}')).toEqual({
      why: 'condition-not-stated',
      condition: 'heights-from',
      wants: 'floor',
    });
    expect(missing('conditions: {floor: level, heights-from: wheel-centre}')).toMatchObject({
      why: 'condition-differs',
      is: 'wheel-centre',
    });
  });

  it('names what is missing: the corners of a tape that was begun, or the data of the sensors', () => {
    const begun = twistOf('{height: {LF: 750 mm, RR: 750 mm}}');
    expect(begun.missing).toMatchObject({ why: 'no-reading', channels: ['height.RF', 'height.LR'] });
    const refused = twistOf('{height: {LF: 750 mm, RF: {why: kerb in the way}, LR: 750 mm}}');
    expect(refused.missing).toMatchObject({ why: 'could-not-be-taken', channel: 'height.RF' });
    const nothing = twistOf('{position: {LF: 2.00 V}}');
    expect(nothing.missing).toMatchObject({
      why: 'no-reading',
      channels: expect.arrayContaining(['height.LF']),
    });
    const partly = twistOf('{position: {LF: 2.00 V}}', floor, `, heights: {LF: ${table('floor')}}`);
    expect(partly.missing).toEqual({ why: 'vehicle-not-stated', what: 'heights.RF' });
    const wheels = twistOf('{position: {LF: 2.00 V}}', floor, tables('wheel-centre'));
    expect(wheels.missing).toMatchObject({ why: 'vehicle-differs', what: 'heights.LF', is: 'wheel-centre' });
  });

  it('is about the body, whichever corners have sensors', () => {
    const readings = '{height: {LF: 780 mm, RF: 750 mm, LR: 750 mm, RR: 750 mm}}';
    expect(said(twistOf(readings, floor, '', 'rear-air-assist'))).toBe('out look');
  });
});
