import { describe, expect, it } from 'vitest';
import { byHandLines, outcomeByHand } from '../../../src/report/next/by-hand.ts';
import { makeStyle } from '../../../src/report/style.ts';
import { aloneOf, benchPack, rank, signals } from '../../core/suspects/bench-pack.ts';
import { keyOn } from '../../support/judge.ts';

const style = makeStyle({
  width: 100,
  colour: 0,
  ascii: false,
  all: true,
  pressureUnit: null,
  temperatureUnit: null,
});
const rated = 'costs: {labour-rate: 60 / h}\n';
/** One thing off, which one fault explains; and two, which take a pair. */
const one = rank(`${keyOn(`{${signals({ LR: '0.50 V' })}, supply: 12.5 V}`)}${rated}`, benchPack);
const two = rank(`${keyOn(`{${signals({ LR: '0.50 V' })}, supply: 11.2 V}`)}${rated}`, benchPack);

describe.each([
  ['one fault', one],
  ['two faults', two],
])('the sum by hand of %s', (_, ranking) => {
  const whole = byHandLines(ranking, style).join(' ').replaceAll(/\s+/gu, ' ');
  const sums = [
    ...whole.matchAll(/((?:[\w.-]+(?:, )?)+): ([\d.e-]+(?: × [A-Z]+ [\d.e-]+)+) = ([\d.e-]+), ([\d.]+) %/gu),
  ];

  const pairs = Number(/Two at once: ([\d.]+) %/u.exec(whole)?.[1] ?? 0);

  it('has a row for every suspect', () => {
    const named = sums.flatMap(([, ids = '']) => ids.split(', '));
    expect(named.sort()).toEqual(ranking.suspects.map(({ id }) => id).sort());
  });

  it('comes, from what is printed alone, to the probabilities that are shown', () => {
    const products = sums.map(([, ids = '', factors = '', product = '', percent = '']) => {
      const computed = factors
        .split(' × ')
        .map((factor) => Number(factor.split(' ').at(-1)))
        .reduce((all, one) => all * one, 1);
      expect(computed / Number(product)).toBeCloseTo(1, 1);
      return { many: ids.split(', ').length, computed, percent: Number(percent) };
    });
    const total = products.reduce((sum, { many, computed }) => sum + many * computed, 0);
    for (const { computed, percent } of products) {
      expect(Math.abs(((100 - pairs) * computed) / total - percent)).toBeLessThan(0.7);
    }
    const shares = products.reduce((sum, { many, percent }) => sum + many * percent, 0);
    expect(Math.abs(shares + pairs - 100)).toBeLessThan(1);
  });

  it('says how often each suspect gives an outcome, so that its chance adds up', () => {
    const [test] = ranking.nextTests;
    for (const outcome of test?.outcomes ?? []) {
      const named = new Map<string, number>();
      for (const group of outcomeByHand(outcome).split('; ')) {
        const [value = '', ...ids] = group.split(' ');
        for (const id of ids.join(' ') === 'all others' ? ['others'] : ids) named.set(id, Number(value));
      }
      const chance = ranking.suspects.reduce(
        (sum, { id }) => sum + aloneOf(ranking, id) * (named.get(id) ?? named.get('others') ?? 0),
        0,
      );
      // What two faults at once give is not printed: it can be no more than their own share.
      expect(outcome.chance).toBeGreaterThan(chance - 0.005);
      expect(outcome.chance).toBeLessThan(chance + pairs / 100 + 0.005);
    }
  });
});

describe('two faults at once', () => {
  it('have their share told, and none where one fault explains all', () => {
    const told = (ranking: typeof one): string =>
      byHandLines(ranking, style).join(' ').replaceAll(/\s+/gu, ' ');
    expect(told(one)).toContain('a product over that is the probability.');
    expect(told(one)).not.toContain('Two at once');
    const pairs = two.hypotheses.filter(({ id }) => id.includes(' + '));
    const share = pairs.reduce((sum, { probability }) => sum + probability, 0);
    expect(share).toBeGreaterThan(0.1);
    expect(told(two)).toContain(`Two at once: ${(share * 100).toFixed(1)} %.`);
  });
});
