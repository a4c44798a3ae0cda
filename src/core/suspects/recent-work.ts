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

/** Whether work of before this visit had to do with a suspect. */
const isTouched = (work: string, { suspect, place }: Hypothesis): boolean => {
  if (suspect === null) return false;
  if (work === 'harness') return suspect.component === 'wiring' || suspect.raisedBy.includes('harness');
  const { base, corner, axle } = parseKey(work);
  if (base === suspect.component || suspect.raisedBy.includes(base)) return concern(corner ?? axle, place);
  return covers(work, place);
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
    hypotheses.map((one) => {
      const touched = recentWork.some((work) => isTouched(work, one));
      return one.prior * (touched ? (one.suspect?.raise ?? 1) : 1);
    }),
  );
};
