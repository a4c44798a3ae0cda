import { describe, expect, it } from 'vitest';
import { amountText, durationText } from '../../../src/report/numbers.ts';
import { ownUnits, saysText } from '../../../src/report/words/finding-words.ts';
import { findingOf, judge } from '../../support/judge.ts';

const pack = `channels:
  - {id: height, per: corner, title: height by tape, quantity: length, unit: mm, by: tape, depends: [air-spring]}
  - {id: tank, title: tank pressure, quantity: pressure, unit: psi, by: gauge, depends: [compressor]}
checks:
  - {id: leak, kind: leak-down, title: Leak-down, of: tank, in: [rest], reserve: 20 psi, basis: {kind: from-memory}, tiers: [{weight: look, at-most: 3 psi/h}]}
  - {id: pump, kind: pump-up, title: Pump-up, of: tank, in: [running], full: 150 psi, basis: {kind: from-memory}, tiers: [{weight: look, at-least: 15 psi/min}]}
  - {id: drop, kind: height-drop, title: Height lost, of: height, in: [rest], basis: {kind: from-memory}, tiers: [{weight: look, at-most: 5 mm/h}]}`;

const shot = (time: string, conditions: string, reading: string, state = 'rest'): string =>
  `  - {id: "t${time.replaceAll(':', '')}", at: "2026-03-02T${time}:00", state: ${state}, conditions: {${conditions}}, readings: {${reading}}}`;
const says = (check: string, shots: readonly string[], units = ownUnits): string =>
  saysText(
    findingOf(judge(pack, `snapshots:\n${shots.join('\n')}`), check, check === 'drop' ? 'LF' : 'tank'),
    units,
  );
const leak = (...points: [time: string, psi: number, air: number | null][]) =>
  points.map(([time, psi, air]) =>
    shot(time, `air-system: closed${air === null ? '' : `, air: ${air} °C`}`, `tank: ${psi} psi`),
  );

describe('the words of a rate', () => {
  it('a fall that the cooling explains', () => {
    const night = leak(['08:00', 120, 15], ['12:00', 118, 10], ['16:00', 115, 5]);
    expect(says('leak', night)).toMatch(
      /^within its limits; cooling from 15 °C to 5 °C explains the fall of 5 psi; it would take \d+ h or more to lose 20 psi$/u,
    );
    const inBars = says('leak', night, { pressureUnit: 'bar', temperatureUnit: '°F' });
    expect(inBars).toContain('cooling from 59 °F to 41 °F explains the fall of 0.34 bar');
    expect(inBars).toContain('to lose 1.4 bar');
  });

  it('a fall that the cooling explains in part, and how long the air lasts', () => {
    const text = says('leak', leak(['08:00', 120, 20], ['10:00', 108, 15], ['12:00', 96, 10]));
    expect(text).toMatch(
      /^too high; cooling from 20 °C to 10 °C explains 3\.9 psi of the fall of 24 psi; at this rate it loses 20 psi in about 4 h$/u,
    );
  });

  it('warming, and air that nobody stated', () => {
    expect(says('leak', leak(['08:00', 120, 5], ['09:00', 110, 10], ['10:00', 100, 15]))).toMatch(
      /warming from 5 °C to 15 °C adds 4 psi, which is allowed for/u,
    );
    expect(says('leak', leak(['08:00', 120, null], ['09:00', 100, null], ['10:00', 80, null]))).toMatch(
      /air temperature not stated with each reading: taken as steady, which leaves ± 1\.\d psi\/h open/u,
    );
  });

  it('two points', () => {
    expect(says('leak', leak(['08:00', 120, 5], ['09:00', 110, 5]))).toBe(
      '2 points are not enough: wants 3 rest snapshots in a row with air-system: closed',
    );
    expect(says('drop', [shot('08:00', '', 'height: {LF: 480 mm}')])).toBe(
      'one point is not enough: wants 2 rest snapshots in a row',
    );
  });

  it('what settles a rate that is too close', () => {
    expect(says('leak', leak(['08:00', 120, null], ['09:00', 118, null], ['10:00', 116, null]))).toMatch(
      /^too close to call: state the air temperature with each reading/u,
    );
    expect(
      says('drop', [shot('08:00', '', 'height: {LF: 480 mm}'), shot('08:30', '', 'height: {LF: 479 mm}')]),
    ).toMatch(/^too close to call: read it over \d[\d.]* h or more, from first to last$/u);
  });

  it('time to fill, and what cooling takes of an air column', () => {
    const pumping = [shot('08:00', 'compressor: on', 'tank: 90 psi', 'running')].concat(
      shot('08:02', 'compressor: on', 'tank: 150 psi', 'running'),
    );
    expect(says('pump', pumping)).toBe(
      'within its limits; at this rate it goes from zero to 150 psi in about 5 min',
    );
    const cooled = [shot('08:00', 'air: 20 °C', 'height: {LF: 480 mm}')].concat(
      shot('18:00', 'air: 0 °C', 'height: {LF: 470 mm}'),
    );
    expect(says('drop', cooled)).toBe(
      'within its limits; cooling from 20 °C to 0 °C alone takes about 7 % of the air column, at all corners alike',
    );
  });
});

describe('amounts and durations', () => {
  it.each([
    [5.43, '5.4 psi'],
    [0.372, '0.37 psi'],
    [120.4, '120 psi'],
    [20, '20 psi'],
  ])('%s', (amount, text) => {
    expect(amountText(amount, 'psi', ownUnits)).toBe(text);
  });

  it.each([
    [0.25, '15 min'],
    [1.49, '89 min'],
    [4.23, '4.2 h'],
    [47, '47 h'],
    [72, '3 days'],
    [2400, '100 days'],
  ])('%s h', (hours, text) => {
    expect(durationText(hours)).toBe(text);
  });
});
