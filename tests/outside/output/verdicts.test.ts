import { erf, gamma, sqrt } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { judgedExample, type Limits, type Measured, measuredOf, numbers } from './judged.ts';

/**
 * Verdicts and probabilities of the examples, worked out again from what was measured. Formulas: JCGM 106:2012, 7.2 to
 * 7.4 and 8; JCGM 100:2008, G.3.2.
 */

const normal = (z: number): number => (1 + erf(z / Number(sqrt(2)))) / 2;

/** Student's distribution function, by Simpson's rule over the angle whose tangent is t/√ν. */
const student = (t: number, freedom: number): number => {
  const steps = 4000;
  const angle = Math.atan(t / Number(sqrt(freedom)));
  const at = (place: number): number => Math.cos((angle * place) / steps) ** (freedom - 1);
  let total = at(0) + at(steps);
  for (let place = 1; place < steps; place += 1) total += (place % 2 === 1 ? 4 : 2) * at(place);
  const area = (total * angle) / steps / 3;
  return 0.5 + (area * gamma((freedom + 1) / 2)) / (gamma(freedom / 2) * Number(sqrt(Math.PI)));
};

/** The degrees of freedom, not necessarily whole, whose two-sided 95 % point is a factor: by halving. */
const freedomOf = (factor: number): number => {
  let [low, high] = [1, 100];
  for (let round = 0; round < 50; round += 1) {
    const middle = (low + high) / 2;
    if (student(factor, middle) < 0.975) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

const distributionOf = ({ coverage }: Measured): ((z: number) => number) => {
  if (coverage === 2) return normal;
  const freedom = freedomOf(coverage);
  return (z) => student(z, freedom);
};

type Verdict = Measured['verdict'];

/** A value at a limit is not beyond it: binary fractions may miss it by their last bits. */
const bits = 1e-9;

const verdictOf = ({ measured: { value, expanded }, decision }: Measured, { low, high }: Limits): Verdict => {
  const guard = decision === 'simple' ? 0 : expanded;
  const [least, most] = [low ?? Number.NEGATIVE_INFINITY, high ?? Number.POSITIVE_INFINITY];
  if (value < least - guard - bits || value > most + guard + bits) return 'out';
  return value < least + guard - bits || value > most - guard + bits ? 'too-close' : 'within';
};

/** The heaviest tier that is out, else the heaviest that is too close; else it is within all. */
const overall = (one: Measured): Verdict => {
  const each = one.tiers.map(({ limits }) => verdictOf(one, limits));
  return (['out', 'too-close'] as const).find((verdict) => each.includes(verdict)) ?? 'within';
};

const findings = (await Promise.all(numbers.map(judgedExample))).flatMap(measuredOf);

describe('what the examples measured', () => {
  it('is judged by its value, its expanded uncertainty and its limits', () => {
    const seen = new Set<string>();
    for (const one of findings) {
      expect([one.id, one.verdict]).toEqual([one.id, verdictOf(one, one.limits)]);
      expect([one.id, one.verdict]).toEqual([one.id, overall(one)]);
      seen.add(one.verdict);
    }
    expect([...seen].sort()).toEqual(['out', 'too-close', 'within']);
  });

  it('is reported by the heaviest tier that has its verdict', () => {
    for (const one of findings.filter(({ verdict }) => verdict !== 'within')) {
      const heaviest = one.tiers.find(({ limits }) => verdictOf(one, limits) === one.verdict);
      expect([one.id, heaviest?.limits]).toEqual([one.id, { low: one.limits.low, high: one.limits.high }]);
    }
  });

  it('lies inside each of its tiers with the probability that its distribution gives', () => {
    let byStudent = 0;
    let doubtful = 0;
    for (const one of findings) {
      const { id, measured, uncertainty, coverage, tiers } = one;
      const distribution = distributionOf(one);
      if (coverage > 2) byStudent += 1;
      for (const { limits, inside } of tiers) {
        const below =
          limits.low === null ? 0 : distribution((limits.low - measured.value) / uncertainty.standard);
        const above =
          limits.high === null ? 0 : distribution((measured.value - limits.high) / uncertainty.standard);
        expect([id, inside]).toEqual([id, expect.closeTo(1 - below - above, 9)]);
        if (inside > 0.001 && inside < 0.999) doubtful += 1;
      }
    }
    expect(byStudent).toBeGreaterThan(0);
    expect(doubtful).toBeGreaterThan(10);
  });
});
