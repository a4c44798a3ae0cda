import { describe, expect, it } from 'vitest';
import { findingsOf, judgeShipped, shippedPack } from '../../../support/shipped.ts';

const packs = [shippedPack('body-heights@1.0.0')];
const senses = 'sensor-sense: {LF: rising, RF: rising, LR: rising, RR: rising}';

const at = (readings: string, vehicle = senses, subject = 'rear') =>
  findingsOf(
    judgeShipped(
      packs,
      `vehicle: {name: Shuttle 7, layout: four-corner-air, ${vehicle}}
instruments: {module: {accuracy: 0 V, shows: 0.01 V}, tape: {accuracy: 0 mm, shows: 1 mm}}
snapshots:
  - {id: a, at: 2026-03-02T08:40, state: key-on, conditions: {heights-from: wheel-centre}, readings: ${readings}}`,
    ),
    'body-heights/signal-against-tape',
    subject,
  ).at(-1);

const both = (LR: string, RR: string, left: string, right: string) =>
  `{position: {LR: ${LR}, RR: ${RR}}, height: {LR: ${left}, RR: ${right}}}`;

describe('signals against the tape', () => {
  it.each([
    ['2.50 V', '2.52 V', '400 mm', '402 mm', 'alike', 'within'],
    ['2.00 V', '2.60 V', '380 mm', '402 mm', 'honest', 'within'],
    ['2.00 V', '2.60 V', '400 mm', '402 mm', 'signal-alone', 'out'],
    ['2.50 V', '2.52 V', '380 mm', '402 mm', 'tape-alone', 'out'],
    ['2.60 V', '2.00 V', '380 mm', '402 mm', 'opposed', 'out'],
  ])('%s and %s at %s and %s are %s', (LR, RR, left, right, pattern, verdict) => {
    const finding = at(both(LR, RR, left, right));
    expect(finding).toMatchObject({ pattern, verdict });
    expect(finding?.patternWeights?.[pattern]).toBeGreaterThan(0.97);
  });

  it('turns falling sensors, and mirrored ones', () => {
    const falling = senses.replaceAll('rising', 'falling');
    expect(at(both('2.60 V', '2.00 V', '380 mm', '402 mm'), falling)?.pattern).toBe('honest');
    const mirrored = senses.replace('RR: rising', 'RR: falling');
    // 1.60 V and 3.40 V stand alike where the right one falls: 5 − 3.40 = 1.60.
    expect(at(both('1.60 V', '3.40 V', '400 mm', '400 mm'), mirrored)?.pattern).toBe('alike');
  });

  it('weighs both ways where the sense is not stated, and says so', () => {
    const finding = at(both('2.00 V', '2.60 V', '380 mm', '402 mm'), 'system: 12 V');
    expect(finding?.verdict).toBe('too-close');
    expect(finding?.remarks).toContainEqual({ kind: 'sense-leaves-open' });
    expect(finding?.patternWeights?.honest).toBeCloseTo(finding?.patternWeights?.opposed ?? 0, 12);
  });

  it('goes by the heights that a scan tool shows where there are no volts', () => {
    const shown = '{shown-height: {LR: 380 mm, RR: 402 mm}, height: {LR: 380 mm, RR: 402 mm}}';
    expect(at(shown, 'sensor-signal: digital')?.pattern).toBe('honest');
    expect(at(both('2.00 V', '2.60 V', '380 mm', '402 mm'), 'sensor-signal: digital')?.missing).toMatchObject(
      {
        why: 'vehicle-differs',
      },
    );
  });

  it('holds a corner with measured pairs and a target against its own tape', () => {
    const vehicle = `${senses}, heights: {LR: {at: [2.00 V, 3.00 V], mm: [350, 450], from: wheel-centre}}, service-data: [{check: body-heights/tape-target, of: LR, between: [390 mm, 410 mm], source: workshop manual}]`;
    const alone = '{position: {LR: 2.80 V}, height: {LR: 402 mm}}';
    expect(at(alone, vehicle, 'LR')).toMatchObject({ pattern: 'signal-alone', verdict: 'out' });
    expect(at(alone, senses, 'LR')).toBeUndefined();
  });
});
