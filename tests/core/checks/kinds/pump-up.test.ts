import { describe, expect, it } from 'vitest';
import { findingOf, judge, said } from '../../../support/judge.ts';

const pack = `checks:
  - {id: pump, kind: pump-up, title: Pump up, of: tank, in: [running], basis: {kind: from-memory}, tiers: [{weight: look, at-least: 15 psi/min}]}`;

const shot = (time: string, reading: string, compressor = 'on', state = 'running'): string =>
  `  - {id: "t${time.replaceAll(':', '')}", at: "2026-03-02T${time}", state: ${state}, conditions: {compressor: ${compressor}}, readings: {${reading && `tank: ${reading}`}}}`;
const sheetOf = (...shots: string[]) => judge(pack, `snapshots:\n${shots.join('\n')}`);
const at = (...shots: string[]) => findingOf(sheetOf(...shots), 'pump', 'tank');

describe('pump-up', () => {
  it('fires on a slow rise and is silent on a brisk one', () => {
    const slow = at(shot('09:00:00', '90 psi'), shot('09:02:00', '100 psi'), shot('09:04:00', '110 psi'));
    expect(said(slow)).toBe('out look');
    expect(slow.measured).toMatchObject({ value: expect.closeTo(5, 9), unit: 'psi/min' });
    expect(slow.snapshot).toBe('t090400');
    const brisk = at(shot('09:00:00', '90 psi'), shot('09:01:00', '115 psi'), shot('09:02:00', '140 psi'));
    expect(said(brisk)).toBe('within look');
  });

  it('fits a line: the gauge’s fixed error cancels, its digits and the clock’s do not', () => {
    const { measured } = at(shot('09:00:00', '90 psi'), shot('09:02:00', '130 psi'));
    // Two points a time t apart: Σ(t − t̄)² = t²/2.
    const sxx = 2;
    const digits = 1 / Math.sqrt(12) / Math.sqrt(sxx);
    const clock = (20 * (1 / 60 / Math.sqrt(12))) / Math.sqrt(sxx);
    expect(measured?.expanded).toBeCloseTo(2 * Math.hypot(digits, clock), 9);
  });

  it('is less sure where the times are only to the minute', () => {
    const toTheMinute = at(shot('09:00', '90 psi'), shot('09:02', '130 psi'));
    const toTheSecond = at(shot('09:00:00', '90 psi'), shot('09:02:00', '130 psi'));
    expect(toTheMinute.measured?.expanded).toBeGreaterThan((toTheSecond.measured?.expanded ?? 0) * 3);
  });

  it('is less sure where the points do not lie on a line', () => {
    const { measured } = at(
      shot('09:00:00', '100 psi'),
      shot('09:01:00', '130 psi'),
      shot('09:02:00', '130 psi'),
      shot('09:03:00', '160 psi'),
    );
    // Slope 18 with residuals −3, 9, −9, 3: s² = 180/2 and Σ(t − t̄)² = 5; Student's factor for 4 − 2 points.
    expect(measured).toMatchObject({ value: expect.closeTo(18, 9) });
    // Its closed form for two degrees of freedom, which tables print as 4.303.
    const ofTwo = 0.95 * Math.sqrt(2 / (1 - 0.95 ** 2));
    expect(measured?.expanded).toBeCloseTo(ofTwo * Math.sqrt(90 / 5), 9);
  });

  it('carries the scale error of the gauge', () => {
    const two = `${shot('09:00:00', '90 psi')}
${shot('09:02:00', '130 psi')}`;
    const expanded = (gain: string) =>
      findingOf(
        judge(pack, `instruments: {gauge: {accuracy: ${gain} % + 1 psi}}\nsnapshots:\n${two}`),
        'pump',
        'tank',
      ).measured?.expanded ?? 0;
    const plain = expanded('0');
    expect(expanded('10')).toBeCloseTo(2 * Math.hypot(plain / 2, (0.1 * 20) / Math.sqrt(3)), 9);
  });

  it('is stale if there was work since its first snapshot', () => {
    const run = `snapshots:\n${shot('09:00:00', '90 psi')}\n${shot('09:02:00', '130 psi')}`;
    const stale = (time: string) =>
      findingOf(
        judge(pack, `${run}\nlog: [{at: "2026-03-02T${time}", did: replaced, what: compressor}]`),
        'pump',
        'tank',
      ).stale;
    expect([stale('08:59'), stale('09:01'), stale('09:30')]).toEqual([false, true, true]);
  });

  it('wants two snapshots with the compressor on', () => {
    expect(at(shot('09:00:00', '90 psi')).missing).toEqual({
      why: 'too-few-snapshots',
      wants: 2,
      condition: 'compressor: on',
    });
    expect(
      at(shot('09:00:00', '90 psi'), shot('09:00:00', '95 psi').replace('t09', 'u09')).missing,
    ).toMatchObject({
      why: 'too-few-snapshots',
    });
  });

  it('does not join two runs over a rest between them, though the pressure was not read in it', () => {
    const finding = at(
      shot('09:00:00', '90 psi'),
      shot('09:01:00', '', 'off'),
      shot('10:00:00', '95 psi'),
      shot('10:01:00', '120 psi'),
    );
    expect(finding.measured?.value).toBeCloseTo(25, 9);
    expect(finding.current).toBe(true);
  });

  it('judges each run, the newest as the current one', () => {
    const sheet = sheetOf(
      shot('09:00:00', '90 psi'),
      shot('09:02:00', '100 psi'),
      shot('09:10:00', '100 psi', 'off'),
      shot('11:00:00', '90 psi'),
      shot('11:02:00', '150 psi'),
    );
    expect(sheet.findings.map(({ snapshot, verdict, current }) => [snapshot, verdict, current])).toEqual([
      ['t090200', 'out', false],
      ['t110200', 'within', true],
    ]);
  });

  it('tells the time from zero to full where the pack says what full is', () => {
    const run = `snapshots:\n${shot('09:00:00', '90 psi')}\n${shot('09:02:00', '130 psi')}`;
    const remarks = (full: string, job = run) =>
      findingOf(judge(pack.replace('tiers:', `${full}tiers:`), job), 'pump', 'tank').remarks;
    expect(remarks('full: 150 psi, ')).toEqual([
      { kind: 'time-to-fill', to: 150, unit: 'psi', minutes: expect.closeTo(7.5, 9) },
    ]);
    expect(remarks('')).toEqual([]);
    expect(remarks('full: 150 psi, ', run.replace('130', '80'))).toEqual([]);
  });

  it('asks for a longer time where that would settle it', () => {
    const { settle } = at(shot('09:00:00', '100 psi'), shot('09:01:00', '115.5 psi'));
    expect(settle).toEqual({ how: 'longer-run', time: expect.any(Number), unit: 'min' });
  });

  it('skips a snapshot of the run in which the pressure was not read', () => {
    const finding = at(shot('09:00:00', '90 psi'), shot('09:01:00', ''), shot('09:02:00', '150 psi'));
    expect(finding.measured?.value).toBeCloseTo(30, 9);
  });
});
