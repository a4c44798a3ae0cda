import { exp, log, log10, sum } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { judgedExample, numbers } from './judged.ts';

/** Probabilities of the examples' suspects, worked out again from priors and likelihoods by Bayes' rule. */

const judged = (await Promise.all(numbers.map(judgedExample))).filter(({ suspects }) => suspects.length > 0);
const total = (values: readonly number[]): number => Number(sum([0, ...values]));

it('there are suspects in most examples', () => {
  expect(judged.length).toBeGreaterThan(10);
});

describe.each(judged)('$file', ({ hypotheses, evidence, suspects }) => {
  it('multiplies priors by the likelihoods of all evidence, and shares the whole', () => {
    const logs = hypotheses.map(
      ({ prior }, place) =>
        Number(log(prior)) + total(evidence.map(({ likelihoods }) => Number(log(likelihoods[place] ?? 0)))),
    );
    const most = Math.max(...logs);
    const weights = logs.map((one) => Number(exp(one - most)));
    for (const [place, { id, probability }] of hypotheses.entries())
      expect([id, probability]).toEqual([id, expect.closeTo((weights[place] ?? 0) / total(weights), 12)]);
    expect(total(hypotheses.map(({ probability }) => probability))).toBeCloseTo(1, 12);
    for (const { group, likelihoods } of evidence)
      expect([group, likelihoods.length]).toEqual([group, hypotheses.length]);
  });

  it('gives pairs a fifth of the product of their priors', () => {
    const priors = new Map(hypotheses.map(({ id, modes, prior }) => [`${id} ${modes.join()}`, prior]));
    const priorOf = (id: string, mode: string | null | undefined): number =>
      priors.get(`${id} ${mode ?? ''}`) ?? Number.NaN;
    for (const { id, modes, prior } of hypotheses) {
      const [one = '', other] = id.split(' + ');
      if (other !== undefined)
        expect([id, prior]).toEqual([
          id,
          expect.closeTo(0.2 * priorOf(one, modes[0]) * priorOf(other, modes[1]), 12),
        ]);
    }
    const singles = hypotheses.filter(({ id }) => !id.includes(' + '));
    expect([...new Set(singles.map(({ id }) => id))].sort()).toEqual(suspects.map(({ id }) => id).sort());
    expect(total(singles.map(({ prior }) => prior))).toBeCloseTo(1, 9);
  });

  it('gives a suspect the share of all that name it', () => {
    for (const { id, probability } of suspects) {
      const own = hypotheses.filter((one) => one.id.split(' + ').includes(id));
      expect([id, probability]).toEqual([id, expect.closeTo(total(own.map((one) => one.probability)), 12)]);
    }
  });

  it('keeps ledgers that add up to the odds of two suspects, each alone at fault', () => {
    const modeOf = new Map(suspects.map(({ id, mode }) => [id, mode?.id ?? null]));
    const alone = (id: string): { probability: number; place: number } => {
      const place = hypotheses.findIndex((one) => one.id === id && one.modes[0] === modeOf.get(id));
      return { probability: hypotheses[place]?.probability ?? Number.NaN, place };
    };
    for (const { id, rival, ledger } of suspects) {
      const [own, other] = [alone(id), alone(rival)];
      const odds = (own?.probability ?? 0) / (other?.probability ?? 0);
      expect([id, total(ledger.map(({ points }) => points))]).toEqual([
        id,
        expect.closeTo(10 * Number(log10(odds)), 6),
      ]);
      expect(ledger.map(({ group }) => group)).toEqual(['prior', ...evidence.map(({ group }) => group)]);
      for (const [index, line] of ledger.entries()) {
        expect([id, line.points]).toEqual([
          id,
          expect.closeTo(10 * Number(log10(line.likelihood / line.rival)), 9),
        ]);
        if (index === 0) continue;
        const { likelihoods = [] } = evidence[index - 1] ?? {};
        expect([id, line.likelihood, line.rival]).toEqual([
          id,
          expect.closeTo(likelihoods[own?.place ?? -1] ?? Number.NaN, 12),
          expect.closeTo(likelihoods[other?.place ?? -1] ?? Number.NaN, 12),
        ]);
      }
    }
  });
});
