import { describe, expect, it } from 'vitest';
import { findingOf, judge, packProblems, said } from '../../../support/judge.ts';

const pack = `channels:
  - {id: height, per: corner, title: height by tape, quantity: length, unit: mm, by: tape, depends: [air-spring]}
  - {id: tank, title: tank pressure, quantity: pressure, unit: psi, by: gauge, depends: [compressor]}
checks:
  - {id: drop, kind: height-drop, title: Height lost, of: height, in: [rest], basis: {kind: from-memory}, tiers: [{weight: look, at-most: 5 mm/h}, {weight: hold, at-most: 15 mm/h}]}`;

const shot = (at: string, heights: string, conditions = 'air: 12 °C', state = 'rest'): string =>
  `  - {id: "t${at.replace(/\D/gu, '')}", at: "2026-03-${at}", state: ${state}, conditions: {${conditions}}, readings: {${heights && `height: {${heights}}`}}}`;
const sheetOf = (shots: readonly string[], more = '') =>
  judge(pack, `snapshots:\n${shots.join('\n')}\n${more}`, '2026-03-04T20:00');
const drop = (corner: string, ...shots: string[]) => findingOf(sheetOf(shots), 'drop', corner);

const evening = '01T20:00:00';
const morning = '02T06:00:00';
const overnight = [
  shot(evening, 'LF: 480 mm, RF: 481 mm, LR: 472 mm, RR: 474 mm'),
  shot(morning, 'LF: 478 mm, RF: 480 mm, LR: 372 mm, RR: 272 mm'),
];

describe('height drop', () => {
  it('is a loss an hour at each corner, and tells the leaking one from the others', () => {
    const sheet = sheetOf(overnight);
    expect(sheet.findings.map(({ subject, verdict, weight }) => [subject, verdict, weight])).toEqual([
      ['LF', 'within', 'look'],
      ['RF', 'within', 'look'],
      ['LR', 'out', 'look'],
      ['RR', 'out', 'hold'],
    ]);
    expect(findingOf(sheet, 'drop', 'LR').measured).toMatchObject({
      value: expect.closeTo(10, 9),
      unit: 'mm/h',
    });
  });

  it('from two points is as uncertain as the tape laid twice: its fixed error does not cancel', () => {
    const { measured } = drop('LF', ...overnight);
    // Two points 10 h apart: Σ(t − t̄)² = 50 h². A tape to the millimetre, good to ± 3.
    const laid = Math.hypot(1 / Math.sqrt(12), 3 / Math.sqrt(3));
    const clock = (0.2 * (1 / 3600 / Math.sqrt(12))) / Math.sqrt(50);
    expect(measured?.expanded).toBeCloseTo(2 * Math.hypot(laid / Math.sqrt(50), clock), 9);
  });

  it('over half an hour is too close to call, and says how long it wants', () => {
    const early = shot('01T20:00:00', 'LF: 480 mm');
    const finding = drop('LF', early, shot('01T20:30:00', 'LF: 479 mm'));
    expect(said(finding)).toBe('too-close look');
    const { settle } = finding;
    expect(settle).toMatchObject({ how: 'longer-run', unit: 'h' });
    const hours = settle?.how === 'longer-run' ? (settle.time ?? 0) : 0;
    expect(hours).toBeGreaterThan(0.5);
    // The same rate over that time is within.
    const end = new Date(Date.UTC(2026, 2, 1, 20) + hours * 3_600_000).toISOString().slice(8, 19);
    const later = drop('LF', early, shot(end, `LF: ${(480 - 2 * hours).toFixed(0)} mm`));
    expect(said(later)).toBe('within look');
  });

  it('wants two points, each with that corner', () => {
    const finding = drop('LR', shot(evening, 'LF: 480 mm, LR: 472 mm'), shot(morning, 'LF: 480 mm'));
    expect(finding.missing).toEqual({
      why: 'too-few-points',
      has: 1,
      wants: 2,
      states: ['rest'],
      condition: null,
    });
    expect(drop('RF', shot(evening, 'LF: 480 mm')).missing).toMatchObject({
      why: 'no-reading',
      channels: ['height.RF'],
    });
  });

  it('tells what cooling alone takes: 20 °C are about 7 % of the air column', () => {
    const night = (to: string) =>
      drop(
        'LF',
        shot(evening, 'LF: 480 mm', 'air: 20 °C'),
        shot(morning, 'LF: 470 mm', to && `air: ${to} °C`),
      ).remarks;
    expect(night('0')).toEqual([
      { kind: 'air-column', percent: expect.closeTo((100 * 20) / 293.15, 9), from: 20, to: 0 },
    ]);
    expect(night('16')).toEqual([]);
    expect(night('')).toEqual([]);
  });
});

describe('height drop’s runs', () => {
  const [first = '', last = ''] = overnight;

  it.each([
    ['a running engine', shot('01T23:00:00', '', 'air: 5 °C', 'running')],
    ['key-on, in which it may level itself', shot('01T23:00:00', '', 'air: 5 °C', 'key-on')],
    ['a drive', shot('01T23:00:00', '', 'levelling: disabled', 'driving')],
  ])('are parted by %s', (_what, between) => {
    expect(drop('LR', first, between, last).missing).toMatchObject({ why: 'too-few-points' });
  });

  it.each([
    ['key-on with the levelling off', shot('01T23:00:00', '', 'levelling: disabled', 'key-on')],
    ['a rest at which no height was read', shot('01T23:00:00', '', 'air: 5 °C')],
  ])('go on over %s', (_what, between) => {
    expect(drop('LR', first, between, last).measured?.value).toBeCloseTo(10, 9);
  });

  it.each([
    ['load: empty', 'load: loaded', false],
    ['floor: level', 'floor: sloped', false],
    ['load: empty', 'load: empty', true],
    ['load: empty', 'floor: level', true],
  ])('with %s and then %s: %s', (before, after, joined) => {
    const { verdict } = drop('LF', shot(evening, 'LF: 480 mm', before), shot(morning, 'LF: 480 mm', after));
    expect(verdict).toBe(joined ? 'within' : 'not-taken');
  });

  it('are parted by work on the corner’s own spring, and by a drive', () => {
    const judgedAt = (log: string) =>
      sheetOf(overnight, `log: [{at: "2026-03-01T22:00", ${log}}]`)
        .findings.filter(({ verdict }) => verdict !== 'not-taken')
        .map(({ subject }) => subject);
    expect(judgedAt('did: replaced, what: air-spring.LR')).toEqual(['LF', 'RF', 'RR']);
    expect(judgedAt('did: drove, what: road-test')).toEqual([]);
  });
});

describe('height drop’s parameters', () => {
  it('name a length', () => {
    expect(packProblems(pack.replace('of: height', 'of: tank'))).toEqual(['wrong-value']);
  });

  it('keep to inches where the channel has them', () => {
    const inches = pack
      .replace('unit: mm', 'unit: in')
      .replace('5 mm/h', '0.2 in/h')
      .replace('15 mm/h', '0.6 in/h');
    const job = `snapshots:\n${shot(evening, 'LF: 19.0 in')}\n${shot(morning, 'LF: 17.0 in')}`;
    expect(findingOf(judge(inches, job, '2026-03-04T20:00'), 'drop', 'LF').measured).toMatchObject({
      value: expect.closeTo(0.2, 9),
      unit: 'in/h',
    });
  });
});
