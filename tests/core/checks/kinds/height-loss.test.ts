import { describe, expect, it } from 'vitest';
import { said } from '../../../support/judge.ts';
import { findingsOf, judgeShipped, shippedPack } from '../../../support/shipped.ts';

const packs = [shippedPack('air-supply@2.0.0')];

const night = (LF: number, RF: number, LR: number, RR: number, air: readonly [string, string] = ['', '']) => {
  const sheet = judgeShipped(
    packs,
    `snapshots:
  - {id: a, at: 2026-03-01T20:00, state: rest, conditions: {${air[0]}}, readings: {height: {LF: 480 mm, RF: 480 mm, LR: 480 mm, RR: 480 mm}}}
  - {id: b, at: 2026-03-02T06:00, state: rest, conditions: {${air[1]}}, readings: {height: {LF: ${LF} mm, RF: ${RF} mm, LR: ${LR} mm, RR: ${RR} mm}}}`,
  );
  return (corner: string) => {
    const [finding] = findingsOf(sheet, 'air-supply/height-drop', corner);
    if (!finding) throw new Error(`no finding of ${corner}`);
    return finding;
  };
};

describe('height lost at rest', () => {
  it('blames the corner whose spring explains the four, and takes its share off the others', () => {
    const at = night(460, 500, 420, 460);
    expect(said(at('LR'))).toBe('out hold');
    expect(at('LR').measured?.value).toBeCloseTo(6, 9);
    for (const other of ['LF', 'RF', 'RR']) {
      expect(at(other).verdict).not.toBe('out');
      expect(at(other).measured?.value).toBeCloseTo(0, 9);
      expect(at(other).remarks).toContainEqual(expect.objectContaining({ kind: 'leans-with', corner: 'LR' }));
    }
  });

  it('finds it behind stiff roll bars, too', () => {
    const at = night(468, 492, 420, 444);
    expect(said(at('LR'))).toBe('out hold');
    expect(at('RR').verdict).not.toBe('out');
  });

  it('judges each corner by what it lost where two springs lose', () => {
    const at = night(480, 480, 420, 420);
    expect([said(at('LR')), said(at('RR'))]).toEqual(['out hold', 'out hold']);
  });

  it('takes off what the cold does to all alike', () => {
    const cold = night(471, 471, 471, 471, ['air: 15 °C', 'air: 5 °C']);
    expect(cold('LF').measured?.value).toBeCloseTo((9 - (250 * 10) / 288.15) / 10, 9);
    expect(cold('LF').verdict).not.toBe('out');
    const open = night(450, 450, 450, 450);
    expect(open('LF').remarks).toContainEqual({ kind: 'equal-fall-open' });
  });
});
