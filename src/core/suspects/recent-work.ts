import { axles, isAxle, isCorner, type Side, sides } from '../corner.ts';
import type { Job } from '../job.ts';
import { keyOf, type Place, parseKey } from '../key.ts';
import { isRepair, mends } from '../steps/staleness.ts';
import { concern, type Hypothesis } from './hypotheses.ts';
import { normalised } from './posterior.ts';

/** What is left of the prior of a part that was renewed in this visit: new ones are seldom bad. Judgement. */
const renewed = 0.2;

const isSide = (text: string): text is Side => Object.hasOwn(sides, text);

/** Whether an area of the vehicle (`front`, `LR`, `left`) covers a place. */
const covers = (area: string, place: Place | null): boolean => {
  if (place === null) return false;
  if (isCorner(area) || isAxle(area)) return concern(area, place);
  if (!isSide(area)) return false;
  return (isAxle(place) ? axles[place] : [place]).some((corner) => sides[area].includes(corner as never));
};

/** How many times likelier work somewhere in the area of a suspect makes it. Judgement, from memory. */
const nearby = 5;

/** How many times likelier work of before this visit makes a suspect: most where it was the component itself. */
const raisedBy = (work: string, { suspect, place }: Hypothesis): number => {
  if (suspect === null) return 1;
  const { base, corner, axle } = parseKey(work);
  const named = base === suspect.component || suspect.raisedBy.includes(base);
  if (named && concern(corner ?? axle, place)) return suspect.raise;
  const harness = work === 'harness' && suspect.component === 'wiring';
  return harness || covers(work, place) ? Math.min(nearby, suspect.raise) : 1;
};

/** Whether a suspect is what was renewed: of several that one component stands for, the one of its name. */
const isRenewed = (
  component: string,
  { suspect, place }: Hypothesis,
  names: ReadonlySet<string | undefined>,
): boolean =>
  suspect !== null &&
  keyOf(suspect.component, place) === component &&
  (suspect.id === suspect.component || !names.has(suspect.component));

/**
 * Priors of a job's hypotheses: those of the packs, several times as much where `recent-work` or a repair of this visit names the
 * suspect's component, one that raises it, or an area that covers its place. What was renewed itself has a fifth.
 *
 * @returns probabilities that sum to 1, in the order of the hypotheses
 */
export const priorsOf = (
  hypotheses: readonly Hypothesis[],
  { recentWork, log }: Pick<Job, 'recentWork' | 'log'>,
): readonly number[] => {
  const fitted = log.flatMap((entry) =>
    isRepair(entry) && mends(entry) && !entry.failed && entry.what ? [entry.what] : [],
  );
  if (recentWork.length === 0 && fitted.length === 0) return hypotheses.map(({ prior }) => prior);
  const names = new Set(hypotheses.map(({ suspect }) => suspect?.id));
  return normalised(
    hypotheses.map((one) => {
      const own = fitted.some((component) => isRenewed(component, one, names));
      // What was renewed is not made likelier by the same work; what may have gone wrong with it is.
      const touching = [...recentWork, ...(own ? [] : fitted)];
      return one.prior * (own ? renewed : 1) * Math.max(1, ...touching.map((work) => raisedBy(work, one)));
    }),
  );
};
