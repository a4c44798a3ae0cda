import { describe, expect, it } from 'vitest';
import type { RankedTest } from '../../../src/core/suspects/ranking.ts';
import { testPrice } from '../../../src/core/suspects/stakes.ts';
import { keyOn } from '../../support/judge.ts';
import { benchPack, rank, signals } from './bench-pack.ts';

const off = keyOn(`{${signals({ LR: '0.50 V' })}, supply: 12.50 V}`);
const rated = 'costs: {labour-rate: 60 / h}\n';

describe('the price of a test', () => {
  it('is its work at the labour rate and its waiting at the cost of downtime', () => {
    const stakes = { rate: 60, downtime: 10 };
    expect(testPrice({ minutes: 12, brings: 0, elapsed: 0 }, stakes)).toBe(12);
    expect(testPrice({ minutes: 12, brings: 8, elapsed: 0 }, stakes)).toBe(20);
    expect(testPrice({ minutes: 12, brings: 0, elapsed: 90 }, stakes)).toBeCloseTo(12 + 15, 12);
  });

  it('takes waiting from what it saves: ten an hour unless the pack says otherwise', () => {
    const waiting = benchPack.replace(
      '    minutes: 6\n    set-up',
      '    minutes: 6\n    elapsed: 60\n    set-up',
    );
    const armOf = (pack: string) =>
      rank(off + rated, pack).nextTests.find(({ id }) => id === 'try-arm.LR') as RankedTest;
    const saved = (pack: string): number => armOf(pack).saves ?? Number.NaN;
    const { saves, neededAnyway } = armOf(benchPack);
    const without = saves ?? Number.NaN;
    expect(without - saved(waiting)).toBeCloseTo(10 * (1 - neededAnyway), 6);
    expect(without - saved(`downtime: {amount: 25}\n${waiting}`)).toBeCloseTo(25 * (1 - neededAnyway), 6);
    const [arm] = rank(off + rated, waiting).nextTests.filter(({ id }) => id === 'try-arm.LR');
    expect(arm?.elapsed).toBe(60);
    expect(arm?.minutes).toBe(12);
  });

  it('counts waiting for a tenth of work where nothing is priced', () => {
    const pins = (elapsed: number): string[] =>
      rank(
        keyOn(`{${signals()}, supply: 11.00 V}`),
        benchPack.replace('    minutes: 12\n', `    minutes: 12\n    elapsed: ${elapsed}\n`),
      ).nextTests.map(({ id }) => id);
    expect(pins(0).indexOf('pins')).toBeLessThan(pins(6000).indexOf('pins'));
  });
});

describe('an hour of work that nobody states', () => {
  const usual = `usual-rate: {amount: 80}\n${benchPack}`;

  it('costs what the pack takes as usual, and the advice says that it is assumed', () => {
    const { advice, nextTests } = rank(off, usual);
    expect(advice).toMatchObject({ rate: 80, rateAssumed: true });
    expect(nextTests[0]?.saves).toBeGreaterThan(0);
  });

  it('gives way to the rate of the job', () => {
    expect(rank(off + rated, usual).advice).toMatchObject({ rate: 60, rateAssumed: false });
    const tests = rank(off + rated, usual).nextTests.map(({ id, saves }) => [id, saves]);
    expect(tests).toEqual(rank(off + rated, benchPack).nextTests.map(({ id, saves }) => [id, saves]));
  });

  it('leaves tests unpriced where the pack names none either', () => {
    expect(rank(off).advice).toBeNull();
    expect(rank(off).nextTests.every(({ saves }) => saves === null)).toBe(true);
  });
});

describe('a test that wants a figure of the plate', () => {
  const wanting = benchPack.replace('  - id: pins\n', '  - id: pins\n    wants: [rated-pressure]\n');
  const listed = (head: string): string[] =>
    rank(`${head}${keyOn(`{${signals()}, supply: 11.00 V}`)}${rated}`, wanting).nextTests.map(({ id }) => id);

  it('is offered only where the vehicle states it', () => {
    expect(listed('')).not.toContain('pins');
    const vehicle = 'vehicle: {name: Shuttle 7, layout: four-corner-air, air: {rated-pressure: 140 psi}}\n';
    expect(listed(vehicle)).toContain('pins');
    const current = 'vehicle: {name: Shuttle 7, layout: four-corner-air, air: {rated-current: 20 A}}\n';
    expect(listed(current)).not.toContain('pins');
  });
});
