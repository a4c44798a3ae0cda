import { axles, isAxle, isCorner, type Side, sides } from '../corner.ts';
import { type Place, parseKey } from '../key.ts';
import { concern, type Hypothesis } from './hypotheses.ts';
import { normalised } from './posterior.ts';

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

/**
 * Priors of a job's hypotheses: those of the packs, several times as much where `recent-work` names the suspect's component, one that
 * raises it, or an area that covers its place.
 *
 * @returns probabilities that sum to 1, in the order of the hypotheses
 */
export const priorsOf = (
  hypotheses: readonly Hypothesis[],
  recentWork: readonly string[],
): readonly number[] => {
  if (recentWork.length === 0) return hypotheses.map(({ prior }) => prior);
  return normalised(
    hypotheses.map((one) => one.prior * Math.max(...recentWork.map((work) => raisedBy(work, one)))),
  );
};
