import { describe, expect, it } from 'vitest';
import type { CostLine, Costs } from '../../../src/core/job.ts';
import { costState } from '../../../src/core/steps/costs.ts';

const line = (more: Partial<CostLine>): CostLine => ({
  kind: 'part',
  what: 'sensor.LR',
  amount: null,
  minutes: null,
  from: null,
  ends: null,
  ...more,
});
const costs = (lines: readonly CostLine[], more: Partial<Costs> = {}): Costs => ({
  currency: 'EUR',
  labourRate: 90,
  authorised: [],
  lines,
  ...more,
});

describe('costState', () => {
  it('adds amounts, and labour by its minutes at the rate', () => {
    const lines = [line({ amount: 138 }), line({ kind: 'labour', minutes: 40 })];
    expect(costState(costs(lines))).toEqual({ total: 198, authorised: null, unknown: [] });
  });

  it('takes an amount before minutes', () => {
    expect(costState(costs([line({ amount: 10, minutes: 600 })])).total).toBe(10);
  });

  it('names what it cannot work out', () => {
    const lines = [line({ what: 'sensor.LR' }), line({ kind: 'labour', what: 'learn', minutes: 15 })];
    expect(costState(costs(lines, { labourRate: null })).unknown).toEqual(['sensor.LR', 'learn']);
  });

  it('takes the newest authorisation as the whole of it, whatever the order in the file', () => {
    const authorised = [
      { at: 20, amount: 300 },
      { at: 10, amount: 900 },
    ];
    expect(costState(costs([], { authorised })).authorised).toBe(300);
  });
});
