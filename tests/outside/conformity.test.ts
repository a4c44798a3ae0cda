import { describe, expect, it } from 'vitest';
import { normalCdf } from '../../src/core/readings/normal.ts';
import { beyond, insideOf, judge, type Limits } from '../../src/core/readings/verdict.ts';

const inside = (value: number, standard: number, limits: Limits): number =>
  insideOf(beyond(value, standard, limits));

// Values from memory, recomputed to five digits.
describe('conformance probabilities of JCGM 106:2012', () => {
  it('7.3: −5.47 with u = 0.05 against at most −5.40 is 0.92', () => {
    expect(inside(-5.47, 0.05, { low: null, high: -5.4 })).toBeCloseTo(0.919_24, 5);
  });

  it('7.3: 509.7 with u = 8.6 against at least 490 is 0.99', () => {
    expect(inside(509.7, 8.6, { low: 490, high: null })).toBeCloseTo(0.989_01, 5);
  });

  it('7.4: 13.6 with u = 1.8 against 12.5 to 16.3 is 0.66', () => {
    expect(inside(13.6, 1.8, { low: 12.5, high: 16.3 })).toBeCloseTo(0.662_63, 5);
  });
});

/**
 * The worst that a guard band w lets through: the chance that the true value lies beyond a single limit when the
 * value sits right at the edge of acceptance. ILAC-G8:09/2019, table of guard bands; seen in one secondary text.
 */
describe('guard bands of ILAC-G8:09/2019', () => {
  const standard = 0.5;
  const expanded = 2 * standard;
  const limits = { low: null, high: 10 };
  const falseAccept = (value: number): number => 1 - inside(value, standard, limits);

  it('w = U: at most 2.5 % false accepts, exactly 2.28 %', () => {
    const edge = 10 - expanded;
    expect(judge(edge, expanded, limits).verdict).toBe('within');
    expect(judge(edge + 0.001, expanded, limits).verdict).toBe('too-close');
    expect(falseAccept(edge)).toBeLessThanOrEqual(0.025);
    expect(falseAccept(edge)).toBeCloseTo(0.0228, 4);
  });

  it('w = 1.5 U: at most 0.16 %', () => {
    const edge = 10 - 1.5 * expanded;
    expect(judge(edge, 1.5 * expanded, limits).verdict).toBe('within');
    expect(falseAccept(edge)).toBeLessThanOrEqual(0.0016);
    expect(falseAccept(edge)).toBeCloseTo(normalCdf(-3), 12);
  });

  it('w = 0, a simple decision: at most 50 %', () => {
    expect(judge(10, expanded, limits, 'simple').verdict).toBe('within');
    expect(judge(10.001, expanded, limits, 'simple').verdict).toBe('out');
    expect(falseAccept(10)).toBeCloseTo(0.5, 12);
  });
});
