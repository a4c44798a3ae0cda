import { describe, expect, it } from 'vitest';
import { findingOf, judge, keyOn, packProblems, said } from '../../../support/judge.ts';

const pack = `channels:
  - {id: position, per: corner, title: position signal, quantity: voltage, unit: V, by: module, depends: [sensor]}
  - {id: height, per: corner, title: height by tape, quantity: length, unit: mm, by: tape, depends: [air-spring]}
  - {id: tank, title: tank, quantity: pressure, unit: psi, by: gauge, depends: []}
checks:
  - id: heights
    kind: height-agreement
    title: Sensor height against tape
    of: position
    against: height
    in: [key-on]
    basis: {kind: from-memory}
    tiers: [{weight: hold, between: [-20 mm, 20 mm]}, {weight: look, between: [-10 mm, 10 mm]}]`;

const exact = 'instruments: {module: {accuracy: 0 V, shows: 0.01 V}, tape: {accuracy: 0 mm}}';
const tables = (from: string) =>
  `heights: {LR: {at: [1.20 V, 2.40 V], mm: [360, 420], from: ${from}}, RR: {at: [1.00 V, 2.00 V, 3.00 V], mm: [420, 400, 350], from: ${from}}}`;

const sheetOf = (
  readings: string,
  more = 'conditions: {heights-from: wheel-centre}',
  heights = tables('wheel-centre'),
  instruments = exact,
) =>
  judge(
    pack,
    `vehicle: {name: Shuttle 7, layout: four-corner-air, ${heights}}\n${instruments}\n${keyOn(readings, `    ${more}`)}`,
  );

const at = (position: string, height: string, corner = 'LR') =>
  findingOf(
    sheetOf(`{position: {${corner}: ${position}}, height: {${corner}: ${height}}}`),
    'heights',
    corner,
  );

describe('sensor height against tape', () => {
  it.each([
    ['1.80 V', '390 mm', 'within look', 0],
    ['1.80 V', '381 mm', 'within look', 9],
    ['1.80 V', '378 mm', 'out look', 12],
    ['1.80 V', '402 mm', 'out look', -12],
    ['1.80 V', '368 mm', 'out hold', 22],
    ['1.80 V', '412 mm', 'out hold', -22],
    ['1.80 V', '380 mm', 'too-close look', 10],
  ])('%s where the tape says %s: %s', (position, height, expected, difference) => {
    const finding = at(position, height);
    expect(said(finding)).toBe(expected);
    expect(finding.measured).toMatchObject({ value: expect.closeTo(difference, 9), unit: 'mm' });
    expect(finding.channels).toEqual(['position.LR', 'height.LR']);
    expect(finding.remarks).toEqual([]);
  });

  it('goes piece by piece through more than two pairs, falling ones too', () => {
    expect(at('1.50 V', '410 mm', 'RR').measured?.value).toBeCloseTo(0, 9);
    expect(at('2.50 V', '375 mm', 'RR').measured?.value).toBeCloseTo(0, 9);
  });

  it('carries the signal’s uncertainty on by the local slope, and the tape’s beside it', () => {
    const usual = sheetOf('{position: {LR: 1.80 V}, height: {LR: 390 mm}}', undefined, undefined, '');
    const { measured, settle } = findingOf(usual, 'heights', 'LR');
    const accuracy = Math.hypot((50 * 0.05) / Math.sqrt(3), 3 / Math.sqrt(3));
    const digits = Math.hypot(50 * 0.01, 1) / Math.sqrt(12);
    expect(measured?.expanded).toBeCloseTo(2 * Math.hypot(accuracy, digits), 6);
    expect(settle).toBeNull();
  });

  it('advises a finer reading of whichever is the coarser, in its own unit', () => {
    expect(at('1.8 V', '380 mm').settle).toEqual({ how: 'finer-reading', placeValue: 0.1, unit: 'mm' });
    const coarse = sheetOf(
      '{position: {LR: 1.8 V}, height: {LR: 381 mm}}',
      undefined,
      undefined,
      'instruments: {module: {accuracy: 0 V}, tape: {accuracy: 0 mm}}',
    );
    expect(findingOf(coarse, 'heights', 'LR').settle).toEqual({
      how: 'finer-reading',
      placeValue: 0.01,
      unit: 'V',
    });
  });

  it('says where it went beyond the measured pairs', () => {
    expect(at('2.60 V', '430 mm').remarks).toEqual([{ kind: 'extrapolated', corners: ['LR'] }]);
  });

  it('is about fitted corners only, each on its own', () => {
    const sheet = sheetOf('{position: {LR: 1.80 V, RR: 1.50 V}, height: {LR: 390 mm}}');
    expect(said(findingOf(sheet, 'heights', 'LR'))).toBe('within look');
    expect(findingOf(sheet, 'heights', 'RR').missing).toMatchObject({
      why: 'no-reading',
      channels: ['height.RR'],
    });
  });

  it('names the vehicle data that it lacks, or that has another basis', () => {
    const readings = '{position: {LF: 1.80 V, LR: 1.80 V}, height: {LF: 390 mm, LR: 390 mm}}';
    expect(findingOf(sheetOf(readings), 'heights', 'LF').missing).toEqual({
      why: 'vehicle-not-stated',
      what: 'heights.LF',
    });
    const floor = sheetOf(readings, undefined, tables('floor'));
    expect(findingOf(floor, 'heights', 'LR').missing).toEqual({
      why: 'vehicle-differs',
      what: 'heights.LR',
      wants: 'wheel-centre',
      is: 'floor',
    });
  });

  it('wants stated what the tape began at', () => {
    const readings = '{position: {LR: 1.80 V}, height: {LR: 390 mm}}';
    const missing = (more: string) => findingOf(sheetOf(readings, more), 'heights', 'LR').missing;
    const wanted = { condition: 'heights-from', wants: 'wheel-centre' };
    expect(missing('')).toEqual({ why: 'condition-not-stated', ...wanted });
    expect(missing('conditions: {heights-from: floor}')).toEqual({
      why: 'condition-differs',
      ...wanted,
      is: 'floor',
    });
  });

  it('keeps its word where a later tape began at the floor: that is another measurement', () => {
    const sheet = judge(
      pack,
      `vehicle: {name: Shuttle 7, layout: four-corner-air, ${tables('wheel-centre')}}
${exact}
snapshots:
  - {id: wheel, at: 2026-03-02T08:40, state: key-on, conditions: {heights-from: wheel-centre}, readings: {position: {LR: 1.80 V}, height: {LR: 390 mm}}}
  - {id: floor, at: 2026-03-02T08:50, state: key-on, conditions: {heights-from: floor}, readings: {position: {LR: 1.80 V}, height: {LR: 720 mm}}}`,
    );
    expect(findingOf(sheet, 'heights', 'LR')).toMatchObject({
      verdict: 'within',
      snapshot: 'wheel',
      current: true,
    });
  });

  it('is stale after work on either', () => {
    const readings = '{position: {LR: 1.80 V}, height: {LR: 390 mm}}';
    const body = `vehicle: {name: Shuttle 7, layout: four-corner-air, ${tables('wheel-centre')}}
${exact}
${keyOn(readings, '    conditions: {heights-from: wheel-centre}')}
log: [{at: 2026-03-02T09:00, did: replaced, what: air-spring.LR}]`;
    expect(findingOf(judge(pack, body), 'heights', 'LR').stale).toBe(true);
  });

  it('wants volts and millimetres at corners', () => {
    expect(packProblems(pack.replace('of: position', 'of: tank'))).toContain('wrong-value');
    expect(packProblems(pack.replace('of: position', 'of: height'))).toContain('wrong-unit');
    expect(packProblems(pack.replace('against: height', 'against: position'))).toContain('wrong-unit');
    expect(packProblems(pack.replace('against: height', 'against: heigth'))).toContain('unknown-channel');
  });
});
