import { log2, sum } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { type Judged, judgedExample, numbers, type Test } from './judged.ts';

/**
 * What the examples' tests save, worked out again from likelihoods and stakes. Formulas: Raiffa and Schlaifer, Applied
 * Statistical Decision Theory (1961), for the value of a test; Howard, Information value theory (1966), for its bound;
 * both from memory.
 */

const judged = (await Promise.all(numbers.map(judgedExample))).filter(
  ({ stakes, nextTests }) => stakes !== null && nextTests.length > 0,
);

const total = (values: readonly number[]): number => Number(sum([0, ...values]));
const entropy = (p: readonly number[]): number =>
  -total(p.map((one) => (one > 0 ? one * Number(log2(one)) : 0)));

/** What acting loses under each hypothesis: nothing where it puts one right, else W + E; passing the job on loses E. */
const lossesOf = ({ suspects, hypotheses, stakes }: Judged): number[][] => {
  const { escalate = 0 } = stakes ?? {};
  return [
    ...suspects.flatMap(({ wrongPart, mends }) =>
      wrongPart === null
        ? []
        : [
            hypotheses.map(({ id }) =>
              id.split(' + ').some((one) => mends.includes(one)) ? 0 : wrongPart + escalate,
            ),
          ],
    ),
    hypotheses.map(() => escalate),
  ];
};

const leastLoss = (weights: readonly number[], losses: readonly number[][]): number =>
  Math.min(...losses.map((of) => total(of.map((loss, place) => loss * (weights[place] ?? 0)))));

/**
 * What a test saves at once: the least loss now, less the least loss after each of its outcomes and its
 * price, as far as it need not be paid in any case.
 */
const savedBy = (
  { price, neededAnyway, outcomes }: Test,
  p: readonly number[],
  losses: readonly number[][],
): number =>
  leastLoss(p, losses) -
  (1 - neededAnyway) * (price ?? 0) -
  total(
    outcomes.map(({ likelihoods }) =>
      leastLoss(
        p.map((one, place) => one * (likelihoods[place] ?? 0)),
        losses,
      ),
    ),
  );

it('there are tests to do in most examples', () => {
  expect(judged.length).toBeGreaterThan(8);
});

describe.each(judged)('$file', (job) => {
  const { nextTests, hypotheses, suspects, stakes } = job;
  const p = hypotheses.map(({ probability }) => probability);
  const losses = lossesOf(job);

  it('prices work by the labour rate, and waiting by the downtime', () => {
    for (const { id, minutes, brings, elapsed, price } of nextTests) {
      const costs = ((minutes + brings) * (stakes?.rate ?? 0) + elapsed * (stakes?.downtime ?? 0)) / 60;
      expect([id, price]).toEqual([id, expect.closeTo(costs, 9)]);
    }
  });

  it('tells how probable each outcome is, and who leads after it', () => {
    for (const { id, outcomes } of nextTests) {
      for (const { chance, leader, probability, likelihoods } of outcomes) {
        const joint = p.map((one, place) => one * (likelihoods[place] ?? 0));
        expect([id, chance]).toEqual([id, expect.closeTo(total(joint), 12)]);
        const shares = new Map(
          suspects.map((suspect) => {
            const own = hypotheses.map((one, place) =>
              one.id.split(' + ').includes(suspect.id) ? (joint[place] ?? 0) : 0,
            );
            return [suspect.id, total(own) / total(joint)];
          }),
        );
        expect([id, probability]).toEqual([id, expect.closeTo(Math.max(...shares.values()), 9)]);
        expect([id, shares.get(leader)]).toEqual([id, expect.closeTo(probability, 9)]);
      }
      expect([id, total(outcomes.map(({ chance }) => chance))]).toEqual([id, expect.closeTo(1, 9)]);
    }
  });

  it('counts bits as entropy now less the mean entropy after it', () => {
    for (const { id, bits, outcomes } of nextTests) {
      const after = outcomes.map(
        ({ chance, likelihoods }) =>
          chance * entropy(p.map((one, place) => (one * (likelihoods[place] ?? 0)) / chance)),
      );
      expect([id, bits]).toEqual([id, expect.closeTo(entropy(p) - total(after), 9)]);
    }
  });

  it('saves the least loss now, less its price and the least loss after each outcome', () => {
    // Hypotheses under 0.5 % are looked at together, which changes a saving by no more than their share of a loss.
    const small = total(p.filter((one) => one < 0.005));
    const open = small * Math.max(...losses.flat());
    for (const test of nextTests)
      expect(Math.abs((test.savesAlone ?? Number.NaN) - savedBy(test, p, losses))).toBeLessThanOrEqual(
        open + 1e-9,
      );
  });

  it('saves no less where another may follow, and no more than knowing the truth would', () => {
    const knowing =
      leastLoss(p, losses) -
      total(p.map((one, place) => one * Math.min(...losses.map((of) => of[place] ?? 0))));
    for (const { id, saves, savesAlone, price, neededAnyway } of nextTests) {
      expect([id, (saves ?? 0) >= (savesAlone ?? 0)]).toEqual([id, true]);
      expect((saves ?? 0) + (1 - neededAnyway) * (price ?? 0)).toBeLessThanOrEqual(knowing + 1e-9);
    }
  });
});

describe('advice', () => {
  const advised = judged.filter(({ advice }) => advice !== null);

  it('is given in most examples', () => {
    expect(advised.length).toBeGreaterThan(8);
  });

  it.each(advised)('$file: is worth fixing from W / (W + E) on', ({ advice, suspects, stakes }) => {
    const [leader] = suspects;
    const worthFixing = (leader?.wrongPart ?? 0) / ((leader?.wrongPart ?? 0) + (stakes?.escalate ?? 0));
    expect(advice).toMatchObject({
      suspect: leader?.id,
      wrongPart: leader?.wrongPart,
      escalate: stakes?.escalate,
      worthFixing: expect.closeTo(worthFixing, 12),
    });
    const mended = suspects.filter(({ id }) => leader?.mends.includes(id));
    const share = Math.min(1, total(mended.map(({ probability }) => probability)));
    expect(advice?.conditions.find(({ id }) => id === 'over-threshold')?.met).toBe(share > worthFixing);
  });
});
