import type { Finding } from '../finding.ts';
import type { Reason } from '../worksheet-parts.ts';

/** A finding as a reason. */
export const findingReason = ({ id, checkTitle, subject, state, stale, verdict }: Finding): Reason => ({
  kind: 'finding',
  finding: id,
  title: checkTitle,
  subject,
  state,
  verdict,
  stale,
});
