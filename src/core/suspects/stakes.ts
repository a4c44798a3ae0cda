import type { Hypothesis } from './hypotheses.ts';
import type { Action } from './look-ahead.ts';

/** What being wrong costs, in the job's currency. */
export interface Stakes {
  /** An hour of work. */
  readonly rate: number;
  /** Giving the job to somebody else. */
  readonly escalate: number;
}

export const priceOf = (minutes: number, { rate }: Pick<Stakes, 'rate'>): number => (minutes / 60) * rate;

/** What a wrong part loses, before the job has to be given away all the same: W. */
export const wrongPartCost = ({ suspect }: Hypothesis, stakes: Stakes): number =>
  suspect === null ? 0 : suspect.wrongPart.amount + priceOf(suspect.wrongPart.minutes, stakes);

/** Worth fixing rather than escalating from this probability on: W / (W + E). */
export const thresholdOf = (hypothesis: Hypothesis, stakes: Stakes): number => {
  const wrong = wrongPartCost(hypothesis, stakes);
  return wrong + stakes.escalate > 0 ? wrong / (wrong + stakes.escalate) : 0;
};

export const escalating = 'escalate';

/**
 * What can be done now, and what each loses beyond the right repair: a part that is at fault loses nothing, a wrong one
 * W + E, since the job is then where it was; giving it away loses E, whatever is wrong.
 */
export const actionsOf = (hypotheses: readonly Hypothesis[], stakes: Stakes): Action[] => [
  ...hypotheses.flatMap((one, index) =>
    one.suspect === null
      ? []
      : [
          {
            id: one.id,
            losses: hypotheses.map((_, place) =>
              place === index ? 0 : wrongPartCost(one, stakes) + stakes.escalate,
            ),
          },
        ],
  ),
  { id: escalating, losses: hypotheses.map(() => stakes.escalate) },
];

/**
 * A test that would settle everything is worth its price until the suspect is more probable than 1 - t/W: with the
 * answer a wrong one is not bought, without it that loses (1 - p)W on top of what is lost either way.
 *
 * @param price of the test (t), in the job's currency
 * @param wrongPart what a wrong part loses (W)
 * @returns 0 where it is never worth it
 */
export const sureTestPaysUntil = (price: number, wrongPart: number): number =>
  wrongPart > price ? 1 - price / wrongPart : 0;
