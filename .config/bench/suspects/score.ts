import { namedPair } from '../../../src/core/suspects/rank.ts';
import type { WeighedSuspects } from '../../../src/core/suspects/weigh.ts';
import { classesOf, classOf } from './classes.ts';
import type { Member, Trouble } from './model/member.ts';

/** What one vehicle's readings came to. */
export interface Verdict {
  /** `sensor: stuck`, or two of them with a plus between. */
  readonly fault: string;
  readonly pair: boolean;
  /** False where no reading is out, so that nothing is suspected. */
  readonly seen: boolean;
  /** Whether readings can tell its class from every other one by physics. */
  readonly told: boolean;
  /** The first suspect is at fault. */
  readonly leads: boolean;
  /** The first class is one that is at fault. */
  readonly first: boolean;
  /** The first class is that, or one that readings cannot tell from it. */
  readonly firstAlike: boolean;
  /** All that is at fault is among the first three suspects. */
  readonly inThree: boolean;
  /** The pair is named, and is the right one. */
  readonly named: boolean;
  /** The class and the probability of the first. */
  readonly leading: string;
  readonly leader: number;
  /** Σ over classes of (p − 1 where it is at fault, else p)². */
  readonly brier: number;
}

/** Classes that no reading tells from what is at fault, its own among them. */
const alikeOf = ({ car, troubles }: Member, { fault, truth, spot }: Trouble): readonly string[] => {
  const like = fault.like(car);
  // A reference that is pulled down does not say by which of the sensors.
  const anywhere = like.includes('reference-circuit') || fault.suspect === 'reference-circuit';
  const places = anywhere
    ? [...car.fitted, ...troubles.map((one) => one.spot.axle)]
    : [spot.corner, spot.axle];
  return [truth, ...like, ...like.flatMap((suspect) => places.map((place) => `${suspect}.${place}`))].map(
    classOf,
  );
};

/** Whether readings can tell it: everything that looks like it is of its own class. */
const isTold = (car: Member['car'], { fault, truth, spot }: Trouble): boolean =>
  fault
    .like(car)
    .every((suspect) => suspect === truth || classOf(`${suspect}.${spot.corner}`) === classOf(truth));

/** Holds the suspects of a vehicle with faults against what is wrong with it. */
export const judge = (member: Member, weighed: WeighedSuspects | null): Verdict => {
  const { troubles } = member;
  const truths = troubles.map(({ truth }) => truth);
  const head = {
    fault: troubles.map(({ fault }) => fault.name).join(' + '),
    pair: troubles.length > 1,
    told: troubles.every((trouble) => isTold(member.car, trouble)),
  };
  if (weighed === null)
    return {
      ...head,
      seen: false,
      leads: false,
      first: false,
      firstAlike: false,
      inThree: false,
      named: false,
      leading: '',
      leader: 0,
      brier: 0,
    };
  const classes = classesOf(weighed);
  const [leading, leader] = classes[0] ?? ['', 0];
  const right = truths.map(classOf);
  const three = weighed.order.slice(0, 3).map((place) => weighed.model.hypotheses[place]?.id ?? '');
  const pair = namedPair(weighed);
  return {
    ...head,
    seen: true,
    leads: truths.includes(three[0] ?? ''),
    first: right.includes(leading),
    firstAlike: troubles.some((trouble) => alikeOf(member, trouble).includes(leading)),
    inThree: truths.every((truth) => three.includes(truth)),
    named: pair !== null && truths.length === 2 && pair.every((one) => truths.includes(one)),
    leading,
    leader,
    brier: classes.reduce((sum, [name, p]) => sum + (p - (right.includes(name) ? 1 : 0)) ** 2, 0),
  };
};

export const mean = (values: readonly number[]): number =>
  values.length === 0 ? Number.NaN : values.reduce((sum, value) => sum + value, 0) / values.length;

export const meanBrier = (verdicts: readonly Verdict[]): number => mean(verdicts.map(({ brier }) => brier));

/** The binary Brier score of the first: (p − 1 where it was right, else p)², in the mean. */
export const leaderBrier = (verdicts: readonly Verdict[]): number =>
  mean(verdicts.map(({ leader, first }) => (leader - (first ? 1 : 0)) ** 2));

export interface Decile {
  readonly decile: number;
  readonly count: number;
  readonly said: number;
  readonly right: number;
}

/** What was said of the first, by tenths of its probability, against how often it was right. */
export const reliability = (verdicts: readonly Verdict[]): Decile[] =>
  Array.from({ length: 10 }, (_, decile) => {
    const own = verdicts.filter(({ leader }) => Math.min(9, Math.floor(leader * 10)) === decile);
    return {
      decile,
      count: own.length,
      said: mean(own.map(({ leader }) => leader)),
      right: mean(own.map(({ first }) => (first ? 1 : 0))),
    };
  }).filter(({ count }) => count > 0);
