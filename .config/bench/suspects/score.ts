import type { Ranking } from '../../../src/core/suspects/ranking.ts';
import type { Member } from './faults.ts';

/** `sensor.LR`, `linkage.LR` and `wiring.LR` are one class until a test splits them: `corner.LR`. */
export const classOf = (suspect: string): string => suspect.replace(/^(sensor|linkage|wiring)\./u, 'corner.');

/** The classes of a ranking with their probabilities, the most probable first. */
export const classesOf = (ranking: Ranking): (readonly [string, number])[] => {
  const sums = new Map<string, number>();
  for (const { id, probability } of ranking.suspects)
    sums.set(classOf(id), (sums.get(classOf(id)) ?? 0) + probability);
  return [...sums].sort((a, b) => b[1] - a[1]);
};

/** What one vehicle's readings came to. */
export interface Verdict {
  readonly fault: string;
  /** False where no reading is out, so that nothing is suspected. */
  readonly seen: boolean;
  readonly told: boolean;
  readonly first: boolean;
  /** The first is one of those that readings cannot tell from the right one. */
  readonly firstAlike: boolean;
  /** The probability of the first class. */
  readonly leader: number;
  /** Σ over classes of (p − 1 where it is true, else p)². */
  readonly brier: number;
}

/** Whether a class is one of the suspects that physics makes look like the true one. */
const isAlike = (leading: string, { fault, truth }: Member): boolean =>
  leading === classOf(truth ?? '') ||
  (fault?.like.some((suspect) => {
    const base = leading.split('.')[0];
    return suspect === base || (base === 'corner' && suspect === 'sensor');
  }) ??
    false);

/** Holds the ranking of a vehicle with a fault against what is wrong with it. */
export const judge = (member: Member, ranking: Ranking | null): Verdict => {
  const { fault, truth } = member;
  const head = { fault: fault?.name ?? '', told: fault?.like.length === 0 };
  if (ranking === null || truth === null)
    return { ...head, seen: false, first: false, firstAlike: false, leader: 0, brier: 0 };
  const classes = classesOf(ranking);
  const [leading, leader] = classes[0] ?? ['', 0];
  const right = classOf(truth);
  return {
    ...head,
    seen: true,
    first: leading === right,
    firstAlike: isAlike(leading, member),
    leader,
    brier: classes.reduce((sum, [name, p]) => sum + (p - (name === right ? 1 : 0)) ** 2, 0),
  };
};

export const mean = (values: readonly number[]): number =>
  values.length === 0 ? Number.NaN : values.reduce((sum, value) => sum + value, 0) / values.length;

/** The binary Brier score of the first: (p − 1 where it was right, else p)², in the mean. */
export const leaderBrier = (verdicts: readonly Verdict[]): number =>
  mean(verdicts.map(({ leader, first }) => (leader - (first ? 1 : 0)) ** 2));

/** What was said of the first, by tenths of its probability, against how often it was right. */
export const reliability = (
  verdicts: readonly Verdict[],
): { readonly decile: number; readonly count: number; readonly said: number; readonly right: number }[] =>
  Array.from({ length: 10 }, (_, decile) => {
    const own = verdicts.filter(({ leader }) => Math.min(9, Math.floor(leader * 10)) === decile);
    return {
      decile,
      count: own.length,
      said: mean(own.map(({ leader }) => leader)),
      right: mean(own.map(({ first }) => (first ? 1 : 0))),
    };
  }).filter(({ count }) => count > 0);
