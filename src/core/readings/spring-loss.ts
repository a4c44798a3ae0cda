import { type Axle, axles, type Corner, corners, type Side, sides } from '../corner.ts';
import type { Uncertain } from './thirds.ts';

/** The other corner of the axle, the other one of the side, and the one across both. */
export const neighbours: Readonly<
  Record<Corner, { readonly axle: Corner; readonly side: Corner; readonly diagonal: Corner }>
> = {
  LF: { axle: 'RF', side: 'LR', diagonal: 'RR' },
  RF: { axle: 'LF', side: 'RR', diagonal: 'LR' },
  LR: { axle: 'RR', side: 'LF', diagonal: 'RF' },
  RR: { axle: 'LR', side: 'RF', diagonal: 'LF' },
};

/**
 * How far each corner of a rigid body on four equal springs moves where one spring loses force, as a share of that
 * corner's own movement. By statics heave, pitch and roll each take an equal part; roll bars leave `rollPart` of the
 * roll. Without bars the shares are 1, 1/3, 1/3 and −1/3; with doubled roll stiffness 1, 0.6, 0.2 and −0.2. The warp is
 * zero for every stiffness.
 *
 * @param rollPart roll with the bars as a part of the roll without them, above 0 and up to 1
 */
export const springShares = (corner: Corner, rollPart: number): Readonly<Record<Corner, number>> => {
  const { axle, side, diagonal } = neighbours[corner];
  const own = 2 + rollPart;
  const shares: Record<Corner, number> = { LF: 0, RF: 0, LR: 0, RR: 0 };
  shares[corner] = 1;
  shares[axle] = (2 - rollPart) / own;
  shares[side] = rollPart / own;
  shares[diagonal] = -rollPart / own;
  return shares;
};

/** Roll parts to average over where the stiffness is not known: axle mates of 1/3, 0.5, 0.6 and 0.7. */
export const usualRollParts: readonly number[] = [1, 2 / 3, 0.5, 0.6 / 1.7];

/** What can move four corners of a body: nothing, all alike, one spring, one axle, one side, or one reading that is off. */
export const lossFamilies = ['none', 'together', 'spring', 'axle', 'side', 'corner'] as const;
export type LossFamily = (typeof lossFamilies)[number];

export interface LossFit {
  readonly family: LossFamily;
  readonly place: Corner | Axle | Side | null;
  /** What was fitted: the movement of the corner, or of all that move alike. */
  readonly amount: number;
  /** What the model says of each corner. */
  readonly at: Readonly<Record<Corner, number>>;
  /** χ² of the best of its shapes. */
  readonly misfit: number;
  /** −2 ln of the mean likelihood of its shapes, and ln 4 for its one parameter. */
  readonly bic: number;
  /** exp(−ΔBIC/2), normalised over all models. */
  readonly weight: number;
}

type Four = Readonly<Record<Corner, Uncertain>>;
type Shape = Readonly<Record<Corner, number>>;

const only = (moves: readonly Corner[]): Shape => ({
  LF: Number(moves.includes('LF')),
  RF: Number(moves.includes('RF')),
  LR: Number(moves.includes('LR')),
  RR: Number(moves.includes('RR')),
});

interface Model {
  readonly family: LossFamily;
  readonly place: LossFit['place'];
  readonly shapes: readonly Shape[];
}

const models: readonly Model[] = [
  { family: 'none', place: null, shapes: [only([])] },
  { family: 'together', place: null, shapes: [only(corners)] },
  ...corners.map(
    (corner): Model => ({
      family: 'spring',
      place: corner,
      shapes: usualRollParts.map((part) => springShares(corner, part)),
    }),
  ),
  ...Object.entries(axles).map(
    ([axle, two]): Model => ({ family: 'axle', place: axle as Axle, shapes: [only(two)] }),
  ),
  ...Object.entries(sides).map(
    ([side, two]): Model => ({ family: 'side', place: side as Side, shapes: [only(two)] }),
  ),
  ...corners.map((corner): Model => ({ family: 'corner', place: corner, shapes: [only([corner])] })),
];

/** Weighted least squares of one amount. */
const fitShape = (four: Four, shape: Shape): { readonly amount: number; readonly misfit: number } => {
  let squares = 0;
  let along = 0;
  for (const corner of corners) {
    const weight = four[corner].standard ** -2;
    squares += weight * shape[corner] ** 2;
    along += weight * shape[corner] * four[corner].value;
  }
  const amount = squares > 0 ? along / squares : 0;
  let misfit = 0;
  for (const corner of corners) {
    const { value, standard } = four[corner];
    misfit += ((value - amount * shape[corner]) / standard) ** 2;
  }
  return { amount, misfit };
};

const fitModel = ({ family, place, shapes }: Model, four: Four): Omit<LossFit, 'weight'> => {
  const fits = shapes.map((shape) => ({ shape, ...fitShape(four, shape) }));
  const best = fits.reduce((least, one) => (one.misfit < least.misfit ? one : least));
  // The mean over shapes that are equally likely before anything is read.
  const mean = fits.reduce((sum, { misfit }) => sum + Math.exp((best.misfit - misfit) / 2), 0) / fits.length;
  const { amount, shape, misfit } = best;
  return {
    family,
    place,
    amount,
    at: { LF: amount * shape.LF, RF: amount * shape.RF, LR: amount * shape.LR, RR: amount * shape.RR },
    misfit,
    bic: misfit - 2 * Math.log(mean) + (family === 'none' ? 0 : Math.log(corners.length)),
  };
};

/** The least standard uncertainty that is fitted with, so that exact readings do not divide by zero. */
const finest = 1e-6;

/**
 * Fits every model to four movements (heights, or rates of heights, in one unit), the likeliest first. Sources: statics
 * of a rigid body on four springs; criterion by Schwarz, Annals of Statistics 6 (1978).
 */
export const fitSpringLoss = (four: Four): readonly [LossFit, ...LossFit[]] => {
  const safe = (corner: Corner): Uncertain => ({
    value: four[corner].value,
    standard: Math.max(finest, four[corner].standard),
  });
  const own = { LF: safe('LF'), RF: safe('RF'), LR: safe('LR'), RR: safe('RR') };
  const fits = models.map((model) => fitModel(model, own)).sort((a, b) => a.bic - b.bic);
  const least = fits[0]?.bic ?? 0;
  const total = fits.reduce((sum, { bic }) => sum + Math.exp((least - bic) / 2), 0);
  const [best, ...rest] = fits.map((fit) => ({ ...fit, weight: Math.exp((least - fit.bic) / 2) / total }));
  if (!best) throw new Error('no models to fit');
  return [best, ...rest];
};

/** χ² that three free corners exceed once in twenty. Value from memory, held to its distribution in tests/outside. */
const misfitOfThree = 7.815;

/** A corner whose spring loses or gains, where the fit is good and hardly anything else explains the four as well. */
export interface FoundSpring {
  readonly corner: Corner;
  readonly fit: LossFit;
}

/**
 * The one corner whose spring explains how four corners moved; null where another model does, where two would do, or
 * where none fits.
 */
export const foundSpring = (fits: readonly [LossFit, ...LossFit[]]): FoundSpring | null => {
  const [fit] = fits;
  if (fit.family !== 'spring' || fit.misfit > misfitOfThree) return null;
  const corner = fit.place as Corner;
  let same = 0;
  for (const one of fits) if (one.place === corner) same += one.weight;
  return same > 0.75 ? { corner, fit } : null;
};
