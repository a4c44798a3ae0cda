import type { Finding } from '../finding.ts';
import type { LogEntry } from '../job.ts';
import type { Reason } from '../worksheet-parts.ts';

export type FindingReason = Extract<Reason, { readonly kind: 'finding' }>;

/** A finding as a reason. */
export const findingReason = ({
  id,
  checkTitle,
  subject,
  state,
  stale,
  verdict,
}: Finding): FindingReason => ({
  kind: 'finding',
  finding: id,
  title: checkTitle,
  subject,
  state,
  verdict,
  stale,
});

/** An entry of the log as a reason. */
export const loggedReason = ({ did, what, stamp }: LogEntry): Reason => ({
  kind: 'logged',
  did,
  what,
  at: stamp.at,
});
