import { type Axle, axles, type Corner, corners, type Side, sides } from '../corner.ts';
import { motionWeights } from './contrasts.ts';

/** What moves corners together, or one alone. */
export const patternFamilies = [
  'none',
  'electrical-together',
  'body-together',
  'corner',
  'spring',
  'side',
  'axle',
] as const;
export type PatternFamily = (typeof patternFamilies)[number];

/** The corner, side or axle that a pattern is about; null where it is about all four, or none. */
export type Place = Corner | Side | Axle | null;

/** One corner's signal in volts as typed, or its height in millimetres with sense +1. */
export interface CornerSignal {
  readonly value: number;
  readonly expected: number;
  /** Standard deviation of what would be no surprise; above zero. */
  readonly spread: number;
  /** +1 where the value rises with the body, −1 where they fall. */
  readonly sense: 1 | -1;
}

export type CornerSignals = Readonly<Record<Corner, CornerSignal>>;

type Shape = (signal: CornerSignal, reference: number) => number;

/** How much of a model's amount each corner shows; none where it is left out. */
export type Shares = Partial<Readonly<Record<Corner, number>>>;

interface Model {
  readonly name: 'none' | 'scaled' | 'raised' | 'body' | 'corner' | 'spring' | 'side' | 'axle';
  readonly family: PatternFamily;
  readonly place: Place;
  /** What the corners show of it; several where that is not known, all as likely. */
  readonly shares: readonly Shares[];
  /** What a corner's residual is a multiple of. */
  readonly shape: Shape;
}

const model = (
  name: Model['name'],
  family: PatternFamily,
  place: Place,
  shares: readonly Shares[],
  shape: Shape,
): Model => ({ name, family, place, shares, shape });

const bySense: Shape = ({ sense }) => sense;

/** All of the amount at some corners, nothing at the rest. */
const at = (moved: readonly Corner[]): readonly Shares[] => [
  Object.fromEntries(moved.map((corner) => [corner, 1])),
];

/**
 * How a rigid body on four equal springs goes where one of them gains or loses force: heave and pitch take F/4k each,
 * roll as much less as the roll bars add to its stiffness. With no bars the corner goes by 1, its axle mate and its
 * side mate by 1/3, its diagonal by −1/3; with roll twice as stiff by 1, 0.6, 0.2 and −0.2. There is no warp. Not
 * valid with a corner on its stop. Source: statics, worked out in tests/outside/pattern.test.ts.
 *
 * @param axleMate the share of the other corner of the axle, 1/3 without roll bars, more with them
 */
export const springShares = (corner: Corner, axleMate: number): Shares => {
  const shared = (1 - axleMate) / 2;
  const shares: Partial<Record<Corner, number>> = {};
  const { pitch, roll } = motionWeights;
  for (const other of corners) {
    const sameEnd = pitch[other] === pitch[corner];
    const sameSide = roll[other] === roll[corner];
    if (sameEnd) shares[other] = sameSide ? 1 : axleMate;
    else shares[other] = sameSide ? shared : -shared;
  }
  return shares;
};

/**
 * Shares of the axle mate from 1/3 to 0.7, evenly: how stiff a vehicle is in roll is not known. With the share of no
 * bars alone, a spring of a vehicle with stiff ones (0.7) would be taken for an axle.
 */
const axleMates = [0, 1, 2, 3].map((index) => 1 / 3 + ((index + 0.5) / 4) * (0.7 - 1 / 3));

const ofSpring = (corner: Corner): readonly Shares[] =>
  axleMates.map((axleMate) => springShares(corner, axleMate));

/** The models of a body, which fit heights as well as signals; of equals the first speaks. */
const ofBody: readonly Model[] = [
  model('body', 'body-together', null, at(corners), bySense),
  ...corners.map((corner) => model('corner', 'corner', corner, at([corner]), bySense)),
  ...corners.map((corner) => model('spring', 'spring', corner, ofSpring(corner), bySense)),
  ...Object.entries(sides).map(([side, two]) => model('side', 'side', side as Side, at(two), bySense)),
  ...Object.entries(axles).map(([axle, two]) => model('axle', 'axle', axle as Axle, at(two), bySense)),
];

const none = model('none', 'none', null, [], () => 0);

const ofHeights: readonly Model[] = [none, ...ofBody];

const ofSignals: readonly Model[] = [
  none,
  model('scaled', 'electrical-together', null, at(corners), ({ expected }) => expected),
  model('raised', 'electrical-together', null, at(corners), ({ value }, reference) => 1 - value / reference),
  ...ofBody,
];

/** A model fitted to four signals. */
export interface Fit {
  readonly name: Model['name'];
  readonly family: PatternFamily;
  readonly place: Place;
  /**
   * What was fitted. `scaled`: by which fraction of the expected volts (0.1 is 10 % up). `raised`: volts at the ground
   * end. `spring`: at its own corner. All but the first two: in the direction in which the body rises.
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

/** Weighted least squares of one parameter: the residuals r = amount · share · shape, each with its spread. */
const fitShares = (
  shape: Shape,
  shares: Shares,
  rows: readonly Row[],
  reference: number,
): { readonly amount: number; readonly chiSquared: number } => {
  const shapes: number[] = [];
  let squares = 0;
  let along = 0;
  for (const { corner, signal, r, w } of rows) {
    const share = shares[corner];
    const v = share === undefined ? 0 : share * shape(signal, reference);
    shapes.push(v);
    squares += w * v * v;
    along += w * v * r;
  }
  const amount = squares > 0 ? along / squares : 0;
  let chiSquared = 0;
  let place = 0;
  for (const { r, w } of rows) {
    const left = r - amount * (shapes[place] ?? 0);
    chiSquared += w * (left * left);
    place += 1;
  }
  return { amount, chiSquared };
};

/**
 * A model's fit. Where its shares are not known its likelihood is the mean over them, each fitted for itself, and its
 * amount that of the best.
 */
const fitOne = (
  { name, family, place, shares, shape }: Model,
  rows: readonly Row[],
  reference: number,
): Omit<Fit, 'weight'> => {
  if (shares.length === 0) {
    const { chiSquared } = fitShares(shape, {}, rows, reference);
    return { name, family, place, amount: 0, bic: chiSquared };
  }
  const fits = shares.map((one) => fitShares(shape, one, rows, reference));
  const best = fits.reduce((a, b) => (b.chiSquared < a.chiSquared ? b : a));
  let likelihood = 0;
  for (const { chiSquared } of fits) likelihood += Math.exp((best.chiSquared - chiSquared) / 2) / fits.length;
  const chiSquared = best.chiSquared - 2 * Math.log(likelihood);
  return { name, family, place, amount: best.amount, bic: chiSquared + perParameter };
};

/** Two that differ by less only differ by rounding. */
const grain = 1e-9;

/**
 * All models fitted, the likeliest first. Residuals are value less expected, in volts as typed: all scaled
 * r = (g − 1)·e · all raised by a ground r = b·(1 − x/Vref) · the body, one side or one axle high or low r = σ·b, one
 * shift for all that move · one corner, any r · one spring r = σ·b·share (`springShares`).
 * Source of the criterion: Schwarz, Estimating the dimension of a model, Annals of Statistics 6 (1978).
 *
 * @param reference nominal reference voltage, V; null for heights, or rates of them, which no electrical cause moves
 */
export const fitPatterns = (signals: CornerSignals, reference: number | null): readonly [Fit, ...Fit[]] => {
  const rows = corners.map((corner) => rowOf(corner, signals[corner]));
  const models = reference === null ? ofHeights : ofSignals;
  const fits = models.map((one) => fitOne(one, rows, reference ?? 0));
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
}

/** Which pattern the four corners make, and how sure that is against the next family; `reference` as in `fitPatterns`. */
export const patternOf = (signals: CornerSignals, reference: number | null): Pattern => {
  const fits = fitPatterns(signals, reference);
  const [best] = fits;
  const next = fits.find(({ family }) => family !== best.family) ?? best;
  const none = fits.find(({ family }) => family === 'none') ?? best;
  const weights: Record<PatternFamily, number> = {
    none: 0,
    'electrical-together': 0,
    'body-together': 0,
    corner: 0,
    spring: 0,
    side: 0,
    axle: 0,
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
  };
};
