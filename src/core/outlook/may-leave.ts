import { counts } from '../finding.ts';
import type { Instant } from '../job.ts';
import type { OpenDanger } from '../loop/dangers.ts';
import { decisionsOf } from '../loop/decisions.ts';
import { type FindingReason, findingReason } from '../steps/reasons.ts';
import type { BriefWorksheet } from '../worksheet.ts';
import { type Held, heldBy } from './held.ts';

/** Whether the vehicle may leave, with the one reason that matters most. */
export type MayLeave =
  /** Something forbids driving it, whatever the release says. */
  | { readonly verdict: 'do-not-drive'; readonly because: readonly OpenDanger[] }
  | { readonly verdict: 'do-not-release'; readonly because: Held }
  | {
      readonly verdict: 'may-leave';
      readonly since: Instant | null;
      readonly closed: boolean;
      /** Components whose repair the customer did not want. */
      readonly declined: readonly string[];
    }
  /** No pack of the job has a release, and nothing that is out holds one. */
  | { readonly verdict: 'not-judged' };

/** Findings that hold a release which no pack of the job has. */
const heldWithoutPoint = ({ findings }: BriefWorksheet): FindingReason[] =>
  findings.filter((finding) => counts(finding) && finding.weight === 'hold').map(findingReason);

/** Whether a vehicle may leave, by its dangers and the hold point `release`. */
export const mayLeave = (sheet: BriefWorksheet): MayLeave => {
  const { dangers, holdPoints, faults, job } = sheet;
  const stops = dangers.filter(({ forbids }) => forbids.includes('drive'));
  if (stops.length > 0) return { verdict: 'do-not-drive', because: stops };
  const release = holdPoints.find(({ id }) => id === 'release');
  if (release === undefined) {
    const held = heldWithoutPoint(sheet);
    return held.length === 0
      ? { verdict: 'not-judged' }
      : { verdict: 'do-not-release', because: { of: 'findings', findings: held } };
  }
  if (!release.clear) return { verdict: 'do-not-release', because: heldBy(release.reasons, faults) };
  // A fault that is confirmed holds the vehicle until it is put right or decided, though no reading shows it.
  if (faults.length > 0 && job.status !== 'closed')
    return { verdict: 'do-not-release', because: { of: 'faults', faults } };
  const { released, declined } = decisionsOf(job);
  return {
    verdict: 'may-leave',
    since: released?.stamp.at ?? null,
    closed: job.status === 'closed',
    declined: [...declined],
  };
};
