import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beyond, insideOf, judge, type Limits, margin } from '../../../src/core/readings/verdict.ts';

const inside = (value: number, standard: number, limits: Limits): number =>
  insideOf(beyond(value, standard, limits));

const limits = { low: 1, high: 2 };

describe('judge', () => {
  it.each([
    [1.5, 0.1, 'within', null],
    [1.1, 0.1, 'within', null],
    [1.05, 0.1, 'too-close', 'low'],
    [0.95, 0.1, 'too-close', 'low'],
    [0.9, 0.1, 'too-close', 'low'],
    [0.89, 0.1, 'out', 'low'],
    [1.9, 0.1, 'within', null],
    [1.95, 0.1, 'too-close', 'high'],
    [2.1, 0.1, 'too-close', 'high'],
    [2.11, 0.1, 'out', 'high'],
  ])('says of %s ± %s: %s', (value, expanded, verdict, side) => {
    expect(judge(value, expanded, limits)).toEqual({ verdict, side });
  });

  it('compares the bare value where a check decides simply', () => {
    expect(judge(1.01, 0.1, limits, 'simple').verdict).toBe('within');
    expect(judge(1, 0.1, limits, 'simple').verdict).toBe('within');
    expect(judge(0.99, 0.1, limits, 'simple').verdict).toBe('out');
  });

  it('asks nothing of a side without a limit', () => {
    expect(judge(-50, 0.1, { low: null, high: 2 }).verdict).toBe('within');
    expect(judge(50, 0.1, { low: 1, high: null }).verdict).toBe('within');
    expect(judge(50, 0.1, { low: null, high: null }).verdict).toBe('within');
  });

  it('is not misled by the last bits of binary arithmetic', () => {
    expect(judge(0.3 - 0.1, 0, { low: 0.2, high: 1 }).verdict).toBe('within');
    expect(judge(0.1 + 0.2, 0, { low: 0, high: 0.3 }).verdict).toBe('within');
  });

  it('passes nothing where the limits are closer together than twice the uncertainty', () => {
    for (const value of [0.9, 1, 1.2, 1.5, 1.8, 2, 2.1])
      expect(judge(value, 0.6, limits).verdict).not.toBe('within');
  });
});

const number = fc.double({ min: -50, max: 50, noNaN: true });
const uncertainty = fc.double({ min: 0, max: 20, noNaN: true });
const someLimits: fc.Arbitrary<Limits> = fc
  .tuple(fc.option(number), fc.option(fc.double({ min: 0, max: 40, noNaN: true })), number)
  .map(([low, width, other]) => ({
    low,
    high: width === null ? null : (low ?? other) + width,
  }));

describe('the properties of a verdict', () => {
  it('is the only one of three whose condition the value meets', () => {
    fc.assert(
      fc.property(number, uncertainty, someLimits, (value, expanded, limit) => {
        const { verdict } = judge(value, expanded, limit);
        const slack = 1e-6;
        const low = limit.low ?? Number.NEGATIVE_INFINITY;
        const high = limit.high ?? Number.POSITIVE_INFINITY;
        const clearlyWithin = value >= low + expanded + slack && value <= high - expanded - slack;
        const clearlyOut = value < low - expanded - slack || value > high + expanded + slack;
        if (clearlyWithin) expect(verdict).toBe('within');
        if (clearlyOut) expect(verdict).toBe('out');
        if (verdict === 'within') {
          expect(value).toBeGreaterThanOrEqual(low + expanded - slack);
          expect(value).toBeLessThanOrEqual(high - expanded + slack);
        }
        if (verdict === 'out') expect(value < low - expanded || value > high + expanded).toBe(true);
        expect(['within', 'out', 'too-close']).toContain(verdict);
      }),
    );
  });

  it('never turns from out into within or from within into out as the uncertainty widens', () => {
    fc.assert(
      fc.property(number, uncertainty, uncertainty, someLimits, (value, one, more, limit) => {
        const before = judge(value, one, limit).verdict;
        const after = judge(value, one + more, limit).verdict;
        expect([before, 'too-close']).toContain(after);
      }),
    );
  });

  it('names a side exactly where it is not within', () => {
    fc.assert(
      fc.property(number, uncertainty, someLimits, (value, expanded, limit) => {
        const { verdict, side } = judge(value, expanded, limit);
        expect(side === null).toBe(verdict === 'within');
      }),
    );
  });

  it('moves with the value and its limits together, and turns about with their signs', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -500, max: 500 }),
        fc.integer({ min: 0, max: 200 }),
        fc.integer({ min: -500, max: 500 }),
        fc.integer({ min: 0, max: 400 }),
        fc.integer({ min: -1000, max: 1000 }),
        (value, expanded, low, width, by) => {
          const here = judge(value, expanded, { low, high: low + width });
          const there = judge(value + by, expanded, { low: low + by, high: low + width + by });
          expect(there).toEqual(here);
          const mirrored = judge(-value, expanded, { low: -low - width, high: -low });
          expect(mirrored.verdict).toBe(here.verdict);
        },
      ),
    );
  });
});

describe('inside', () => {
  it('is yes or no for a value without uncertainty', () => {
    expect([0.9, 1, 1.5, 2, 2.1].map((value) => inside(value, 0, limits))).toEqual([0, 1, 1, 1, 0]);
  });

  it('is about a half on a limit that is far from the other', () => {
    expect(inside(1, 0.01, limits)).toBeCloseTo(0.5, 12);
  });

  it('is a probability, and shares out what lies on either side of a limit', () => {
    fc.assert(
      fc.property(
        number,
        fc.double({ min: 0.01, max: 20, noNaN: true }),
        number,
        (value, standard, limit) => {
          const below = inside(value, standard, { low: null, high: limit });
          const above = inside(value, standard, { low: limit, high: null });
          expect(below).toBeGreaterThanOrEqual(0);
          expect(below).toBeLessThanOrEqual(1);
          expect(below + above).toBeCloseTo(1, 12);
        },
      ),
    );
  });

  it('is at least 95 % for what is within by two standard uncertainties, at most 2.5 % for what is out', () => {
    fc.assert(
      fc.property(
        number,
        fc.double({ min: 0.01, max: 10, noNaN: true }),
        someLimits,
        (value, standard, limit) => {
          const { verdict } = judge(value, 2 * standard, limit);
          const share = inside(value, standard, limit);
          if (verdict === 'within') expect(share).toBeGreaterThan(0.95);
          if (verdict === 'out') expect(share).toBeLessThan(0.025);
        },
      ),
    );
  });
});

describe('margin', () => {
  it('is the room to the nearer limit, negative beyond it, and null where there is none', () => {
    expect(margin(1.2, limits)).toBeCloseTo(0.2, 12);
    expect(margin(1.9, limits)).toBeCloseTo(0.1, 12);
    expect(margin(2.3, limits)).toBeCloseTo(-0.3, 12);
    expect(margin(5, { low: 1, high: null })).toBe(4);
    expect(margin(5, { low: null, high: null })).toBeNull();
  });
});
