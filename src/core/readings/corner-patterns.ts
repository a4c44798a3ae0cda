import { type Axle, axles, type Corner, corners, type Side, sides } from '../corner.ts';
import { springShares, usualRollParts } from './spring-loss.ts';

/** What moves corners together, or one alone. */
export const patternFamilies = [
  'none',
  'electrical-together',
  'body-together',
  'corner',
  'side',
  'axle',
  'spring',
] as const;
export type PatternFamily = (typeof patternFamilies)[number];

/** The corner, side or axle that a pattern is about; null where it is about all four, or none. */
export type Place = Corner | Side | Axle | null;

/** One corner's signal, all in volts as typed. */
export interface CornerSignal {
  readonly value: number;
  readonly expected: number;
  /** Standard deviation of what would be no surprise; above zero. */
  readonly spread: number;
  /** +1 where the volts rise with the body, −1 where they fall. */
  readonly sense: 1 | -1;
}

export type CornerSignals = Readonly<Record<Corner, CornerSignal>>;

type Shape = (signal: CornerSignal, reference: number, corner: Corner) => number;

interface Model {
  readonly name: 'none' | 'scaled' | 'raised' | 'body' | 'corner' | 'side' | 'axle' | 'spring';
  readonly family: PatternFamily;
  readonly place: Place;
  /** The corners that it moves. */
  readonly moves: readonly Corner[];
  /** What a corner's residual is a multiple of. */
  readonly shape: Shape;
}

const model = (
  name: Model['name'],
  family: PatternFamily,
  place: Place,
  moves: readonly Corner[],
  shape: Shape,
): Model => ({ name, family, place, moves, shape });

/** One spring of a rigid body, for each stiffness of roll bars that it may have. */
const springModels: readonly (readonly Model[])[] = corners.map((at) =>
  usualRollParts.map((part) => {
    const shares = springShares(at, part);
    return model('spring', 'spring', at, corners, ({ sense }, _reference, corner) => sense * shares[corner]);
  }),
);

const bySense: Shape = ({ sense }) => sense;

/** Every model; of equals the first speaks. */
const models: readonly Model[] = [
  model('none', 'none', null, [], () => 0),
  model('scaled', 'electrical-together', null, corners, ({ expected }) => expected),
  model('raised', 'electrical-together', null, corners, ({ value }, reference) => 1 - value / reference),
  model('body', 'body-together', null, corners, bySense),
  ...corners.map((corner) => model('corner', 'corner', corner, [corner], bySense)),
  ...Object.entries(sides).map(([side, two]) => model('side', 'side', side as Side, two, bySense)),
  ...Object.entries(axles).map(([axle, two]) => model('axle', 'axle', axle as Axle, two, bySense)),
];

/** A model fitted to four signals. */
export interface Fit {
  readonly name: Model['name'];
  readonly family: PatternFamily;
  readonly place: Place;
  /**
   * What was fitted. `scaled`: by which fraction of the expected volts (0.1 is 10 % up). `raised`: volts at the ground
   * end. The rest: volts in the direction in which the body rises.
   */
  readonly amount: number;
  /** χ² + k ln n, with n = 4 corners, and k = 1 but for `none`. */
  readonly bic: number;
  /** exp(−ΔBIC/2), normalised over all models. */
  readonly weight: number;
}

/** One corner as a fit sees it: its residual, and the weight that its spread gives it. */
interface Row {
  readonly corner: Corner;
  readonly signal: CornerSignal;
  readonly r: number;
  readonly w: number;
}

const rowOf = (corner: Corner, signal: CornerSignal): Row => ({
  corner,
  signal,
  r: signal.value - signal.expected,
  w: signal.spread ** -2,
});

const perParameter = Math.log(corners.length);

/** Weighted least squares of one parameter: the residuals r = amount · shape, each with its spread. */
const fitOne = (
  { name, family, place, moves, shape }: Model,
  rows: readonly Row[],
  reference: number,
): Omit<Fit, 'weight'> => {
  const shapes: number[] = [];
  let squares = 0;
  let along = 0;
  for (const { corner, signal, r, w } of rows) {
    const v = moves.includes(corner) ? shape(signal, reference, corner) : 0;
    shapes.push(v);
    squares += w * v * v;
    along += w * v * r;
  }
  const amount = squares > 0 ? along / squares : 0;
  let chiSquared = 0;
  let at = 0;
  for (const { r, w } of rows) {
    const left = r - amount * (shapes[at] ?? 0);
    chiSquared += w * (left * left);
    at += 1;
  }
  return { name, family, place, amount, bic: chiSquared + (moves.length > 0 ? perParameter : 0) };
};

/** The best stiffness of a spring's model, with the mean likelihood of all of them: each is as likely beforehand. */
const fitSpring = (
  stiffnesses: readonly Model[],
  rows: readonly Row[],
  reference: number,
): Omit<Fit, 'weight'> => {
  const fits = stiffnesses.map((one) => fitOne(one, rows, reference));
  const best = fits.reduce((least, one) => (one.bic < least.bic ? one : least));
  const mean = fits.reduce((sum, { bic }) => sum + Math.exp((best.bic - bic) / 2), 0) / fits.length;
  return { ...best, bic: best.bic - 2 * Math.log(mean) };
};

/** Two that differ by less only differ by rounding. */
const grain = 1e-9;

/**
 * All models fitted, the likeliest first. Residuals are value less expected, in volts as typed: all scaled
 * r = (g − 1)·e · all raised by a ground r = b·(1 − x/Vref) · the body, one side or one axle high or low r = σ·b, one
 * shift for all that move · one corner, any r.
 * Source of the criterion: Schwarz, Estimating the dimension of a model, Annals of Statistics 6 (1978).
 *
 * @param reference nominal reference voltage, V
 * @param springs whether one spring that loses or gains is among the models
 */
export const fitPatterns = (
  signals: CornerSignals,
  reference: number,
  springs = false,
): readonly [Fit, ...Fit[]] => {
  const rows = corners.map((corner) => rowOf(corner, signals[corner]));
  const fits = models.map((one) => fitOne(one, rows, reference));
  if (springs) for (const one of springModels) fits.push(fitSpring(one, rows, reference));
  fits.sort((a, b) => Math.round((a.bic - b.bic) / grain));
  const [best, ...rest] = weighted(fits);
  if (!best) throw new Error('no models to fit');
  return [best, ...rest];
};

/** Fits with their weights, the likeliest of them given first. */
const weighted = (fits: readonly Omit<Fit, 'weight'>[]): Fit[] => {
  const least = fits[0]?.bic ?? 0;
  const shareOf = (bic: number): number => Math.exp((least - bic) / 2);
  let total = 0;
  for (const { bic } of fits) total += shareOf(bic);
  const all: Fit[] = [];
  for (const { name, family, place, amount, bic } of fits)
    all.push({ name, family, place, amount, bic, weight: shareOf(bic) / total });
  return all;
};

/** How sure a lead in BIC makes one of the better family. */
export type Sureness = 'cannot-tell' | 'positive' | 'strong' | 'very-strong';

/** Grades of evidence by ΔBIC: Kass and Raftery, Bayes Factors, JASA 90 (1995), 3.2; values from memory. */
export const surenessOf = (lead: number): Sureness => {
  if (lead < 2) return 'cannot-tell';
  if (lead < 6) return 'positive';
  return lead < 10 ? 'strong' : 'very-strong';
};

export interface Pattern {
  readonly best: Fit;
  /** The best model of any other family. */
  readonly next: Fit;
  /** ΔBIC from best to next. */
  readonly lead: number;
  readonly sure: Sureness;
  /** How much less BIC the best has than `none`; zero where none is best. */
  readonly overNone: number;
  /** Each family's share, the sum of its models'; they add up to one. */
  readonly weights: Readonly<Record<PatternFamily, number>>;
  /** All models, the likeliest first. */
  readonly fits: readonly Fit[];
}

/** Which pattern the four corners make, and how sure that is against the next family. */
export const patternOf = (signals: CornerSignals, reference: number, springs = false): Pattern => {
  const fits = fitPatterns(signals, reference, springs);
  const [best] = fits;
  const next = fits.find(({ family }) => family !== best.family) ?? best;
  const none = fits.find(({ family }) => family === 'none') ?? best;
  const weights: Record<PatternFamily, number> = {
    none: 0,
    'electrical-together': 0,
    'body-together': 0,
    corner: 0,
    side: 0,
    axle: 0,
    spring: 0,
  };
  for (const { family, weight } of fits) weights[family] += weight;
  const lead = next.bic - best.bic;
  return {
    best,
    next,
    lead,
    sure: surenessOf(lead),
    overNone: none.bic - best.bic,
    weights,
    fits,
  };
};
