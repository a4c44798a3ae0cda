import { exp, log, mean, sum } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { judgedExample, numbers } from './judged.ts';

/**
 * Which pattern the four corners of the examples make, fitted again from the signals in the JSON. Criterion: Schwarz,
 * Estimating the dimension of a model, Annals of Statistics 6 (1978).
 */

const judged = await Promise.all(numbers.map(judgedExample));
const patterns = judged.flatMap(({ findings }) =>
  findings.flatMap(({ id, fit, weights }) => (fit && weights ? [{ id, fit, weights }] : [])),
);
type Fit = (typeof patterns)[number]['fit'];
type Corner = Fit['signals'][number]['corner'];
type Shape = (signal: Fit['signals'][number], reference: number) => number;

const places: Readonly<Record<string, readonly Corner[]>> = {
  front: ['LF', 'RF'],
  rear: ['LR', 'RR'],
  left: ['LF', 'LR'],
  right: ['RF', 'RR'],
};

const total = (values: readonly number[]): number => Number(sum([0, ...values]));

/**
 * How four corners of a rigid body move by statics when one spring loses force: heave, pitch and roll a quarter of it
 * each, and roll less where bars make it stiffer. The same end, the same side, or neither.
 */
const springShapes = (at: Corner): Shape[] =>
  [1, 3 / 2, 2, 17 / 6].map((stiffer) => {
    const end = ({ corner }: { corner: Corner }): number => (corner[1] === at[1] ? 1 : -1);
    const side = ({ corner }: { corner: Corner }): number => (corner[0] === at[0] ? 1 : -1);
    const whole = 2 + 1 / stiffer;
    return (signal) => (signal.sense * (1 + end(signal) + side(signal) / stiffer)) / whole;
  });

const shapesOf = (model: string, place: string | null): Shape[] => {
  const moved = (corner: Corner): boolean =>
    place === null || corner === place || (places[place]?.includes(corner) ?? false);
  switch (model) {
    case 'none':
      return [() => 0];
    case 'scaled':
      return [({ expected }) => expected];
    case 'raised':
      return [({ value }, reference) => 1 - value / reference];
    case 'spring':
      return springShapes(place as Corner);
    default:
      return [({ corner, sense }) => (moved(corner) ? sense : 0)];
  }
};

/** χ² of the best amount of one shape, and that amount. */
const fitted = ({ signals, reference }: Fit, shape: Shape): { chiSquared: number; amount: number } => {
  const rows = signals.map((one) => ({
    r: one.value - one.expected,
    v: shape(one, reference),
    w: 1 / one.spread ** 2,
  }));
  const squares = total(rows.map(({ v, w }) => w * v * v));
  const amount = squares > 0 ? total(rows.map(({ r, v, w }) => w * v * r)) / squares : 0;
  return { amount, chiSquared: total(rows.map(({ r, v, w }) => w * (r - amount * v) ** 2)) };
};

describe('patterns of the examples', () => {
  it('are all fitted by weighted least squares, one parameter each', () => {
    expect(patterns.length).toBeGreaterThan(15);
    for (const { id, fit } of patterns) {
      for (const { model, place, amount, bic } of fit.models) {
        const fits = shapesOf(model, place).map((shape) => fitted(fit, shape));
        // Stiffnesses that are equally likely beforehand: the mean of their likelihoods.
        const likelihood = Number(mean(fits.map(({ chiSquared }) => Number(exp(-chiSquared / 2)))));
        const parameters = model === 'none' ? 0 : Number(log(4));
        expect([id, model, place, bic]).toEqual([
          id,
          model,
          place,
          expect.closeTo(parameters - 2 * Number(log(likelihood)), 9),
        ]);
        const best = fits.reduce((least, one) => (one.chiSquared < least.chiSquared ? one : least));
        expect([id, model, place, amount]).toEqual([id, model, place, expect.closeTo(best.amount, 9)]);
      }
    }
  });

  it('have each model once, and shares by exp(−BIC/2)', () => {
    for (const { id, fit, weights } of patterns) {
      const names = fit.models.map(({ model, place }) => `${model} ${place}`);
      expect([id, new Set(names).size]).toEqual([id, 4 + 3 * 4]);
      const shares = fit.models.map(({ bic }) => Number(exp(-bic / 2)));
      for (const [index, { weight }] of fit.models.entries())
        expect([id, weight]).toEqual([id, expect.closeTo((shares[index] ?? 0) / total(shares), 12)]);
      for (const [family, share] of Object.entries(weights)) {
        const own = fit.models.filter((one) => one.family === family).map(({ weight }) => weight);
        expect([id, family, share]).toEqual([id, family, expect.closeTo(total(own), 12)]);
      }
    }
  });

  it('and of the words of other checks sum to 1', () => {
    const words = judged
      .flatMap(({ findings }) => findings)
      .filter(({ fit, weights }) => fit === null && weights !== null);
    expect(words).not.toEqual([]);
    for (const { id, weights } of words)
      expect([id, total(Object.values(weights ?? {}))]).toEqual([id, expect.closeTo(1, 9)]);
  });
});
