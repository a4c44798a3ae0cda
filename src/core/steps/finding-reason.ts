import type { Finding } from '../finding.ts';
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
