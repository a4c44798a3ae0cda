import type { Corner } from '../corner.ts';
import { keyOf } from '../key.ts';
import type { Evidence } from './evidence.ts';
import type { Confirmation } from './model.ts';
import { likeliestValue } from './observe.ts';
import { neutralOf } from './spaces.ts';

/** Whether a group shows what is asked for: `corner` is the asker's own, `out` any value but a good one. */
const shows = (
  { group: id, shows: wanted }: Confirmation,
  corner: Corner | null,
  evidence: Evidence,
): boolean => {
  const found = id === null ? undefined : evidence.observed.get(id);
  if (!found || wanted === null) return false;
  const value = likeliestValue(found.seen);
  if (wanted === 'out') return value !== neutralOf(found.group.space);
  return value === (wanted === 'corner' ? corner : wanted);
};

const testId = ({ test }: Confirmation, corner: Corner | null, { probings }: Evidence): string | null => {
  if (test === null) return null;
  const perCorner = probings.some((probing) => probing.test.id === test && probing.corner !== null);
  return perCorner ? keyOf(test, corner) : test;
};

/** `differs-corner` is the outcome `differs-LR` for what stands at the left rear. */
export const isOutcome = (wanted: string, id: string, corner: Corner | null): boolean =>
  wanted === id || (corner !== null && wanted === cornerless(id, corner));

/** An outcome's name with `corner` in the place of the corner that it ends with. */
export const cornerless = (id: string, corner: Corner): string =>
  id.endsWith(`-${corner}`) ? `${id.slice(0, -corner.length)}corner` : id;

const isConfirmed = (wanted: Confirmation, corner: Corner | null, evidence: Evidence): boolean => {
  const id = testId(wanted, corner, evidence);
  const place = id === null ? undefined : evidence.recorded.get(id);
  const outcome = evidence.probings.find((probing) => probing.id === id)?.test.outcomes[place ?? -1];
  return (
    (outcome !== undefined && wanted.found.some((one) => isOutcome(one, outcome.id, corner))) ||
    shows(wanted, corner, evidence)
  );
};

/**
 * Confirmations that are not on record, current, and with the outcome that is asked for: tests by their id
 * (`arm-by-hand.LR`), else groups.
 *
 * @param corner of the suspect or test that asks
 */
export const missingConfirmations = (
  wanted: readonly Confirmation[],
  corner: Corner | null,
  evidence: Evidence,
): string[] =>
  wanted
    .filter((one) => !isConfirmed(one, corner, evidence))
    .map((one) => testId(one, corner, evidence) ?? one.group ?? '');
