import type { Action } from './decision.ts';
import type { Hypothesis } from './hypotheses.ts';
import type { World } from './worlds.ts';

/** What being wrong costs, in the job's currency. */
export interface Stakes {
  /** An hour of work. */
  readonly rate: number;
  /** True where neither job nor shop says what an hour costs, and the pack's usual rate stands in. */
  readonly assumed: boolean;
  /** An hour of waiting. */
  readonly downtime: number;
  /** Giving the job to somebody else. */
  readonly escalate: number;
}

export const priceOf = (minutes: number, { rate }: Pick<Stakes, 'rate'>): number => (minutes / 60) * rate;

/** The price of a test: its work at the labour rate, its waiting at the cost of downtime. */
export const testPrice = (
  {
    minutes,
    brings,
    elapsed,
  }: { readonly minutes: number; readonly brings: number; readonly elapsed: number },
  stakes: Pick<Stakes, 'rate' | 'downtime'>,
): number => priceOf(minutes + brings, stakes) + (elapsed / 60) * stakes.downtime;

/** What a wrong part loses, before the job has to be given away all the same: W. */
export const wrongPartCost = ({ suspect }: Hypothesis, stakes: Stakes): number =>
  suspect === null ? 0 : suspect.wrongPart.amount + priceOf(suspect.wrongPart.minutes, stakes);

/** Worth fixing rather than escalating from this probability on: W / (W + E). */
export const thresholdOf = (hypothesis: Hypothesis, stakes: Stakes): number => {
  const wrong = wrongPartCost(hypothesis, stakes);
  return wrong + stakes.escalate > 0 ? wrong / (wrong + stakes.escalate) : 0;
};

/** How probable it is that acting on a suspect is right, from the shares of all hypotheses. */
export const shareMended = (
  one: Hypothesis,
  hypotheses: readonly Hypothesis[],
  shares: readonly number[],
): number => {
  let share = 0;
  for (const [place, other] of hypotheses.entries()) if (isMendedBy(other, one)) share += shares[place] ?? 0;
  return Math.min(1, share);
};

export const escalating = 'escalate';

/**
 * Whether acting on one suspect puts another right, too: the same component at the same place is worked on. A module whose
 * reading alone is off wants no repair, and replacing it would be a wrong part.
 */
export const isMendedBy = (other: Hypothesis | undefined, one: Hypothesis): boolean =>
  other === one ||
  (one.suspect?.repaired === true &&
    other?.suspect?.repaired === true &&
    other.suspect.component === one.suspect.component &&
    other.place === one.place);

/**
 * What can be done now, and what each loses beyond the right repair: a part that is at fault loses nothing, also where
 * another is at fault beside it; a wrong one W + E, since the job is then where it was; giving it away loses E, whatever
 * is wrong.
 *
 * @returns losses in the order of the worlds
 */
export const actionsOf = (
  hypotheses: readonly Hypothesis[],
  worlds: readonly Pick<World, 'members'>[],
  stakes: Stakes,
): Action[] => [
  ...hypotheses.flatMap((one) => {
    if (one.suspect === null) return [];
    const mended = hypotheses.map((other) => isMendedBy(other, one));
    const wrong = wrongPartCost(one, stakes) + stakes.escalate;
    return [
      {
        id: one.id,
        losses: worlds.map(({ members }) => (members.some((member) => mended[member]) ? 0 : wrong)),
      },
    ];
  }),
  { id: escalating, losses: worlds.map(() => stakes.escalate) },
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
