import type { Fault } from '../loop/faults.ts';
import type { FindingReason } from '../steps/reasons.ts';
import type { Reason } from '../worksheet-parts.ts';

/** What keeps a hold point from being clear, the heaviest kind of it only. */
export type Held =
  | { readonly of: 'findings'; readonly findings: readonly FindingReason[] }
  | { readonly of: 'faults'; readonly faults: readonly Fault[] }
  | { readonly of: 'old-findings'; readonly findings: readonly FindingReason[] }
  | { readonly of: 'reason'; readonly reason: Reason }
  | { readonly of: 'steps'; readonly count: number };

const isFinding = (reason: Reason): reason is FindingReason => reason.kind === 'finding';

/** What somebody has to decide or pay for before anything else helps, the part in question first. */
const heavy: readonly Reason['kind'][] = [
  'part-not-leading',
  'part-not-blamed',
  'part-not-advised',
  'part-not-weighed',
  'part-unequipped',
  'waiver-ended',
  'cost-above',
  'cost-not-authorised',
  'cost-unknown',
];

/** What steps and readings will answer by themselves. */
const byItself: ReadonlySet<Reason['kind']> = new Set(['step-open', 'stale-evidence']);

/**
 * The one thing that keeps a hold point from being clear.
 *
 * @param faults those that are confirmed and not put right
 */
export const heldBy = (reasons: readonly Reason[], faults: readonly Fault[]): Held => {
  const findings = reasons.filter(isFinding).filter(({ verdict }) => verdict === 'out');
  const fresh = findings.filter(({ stale }) => !stale);
  if (fresh.length > 0) return { of: 'findings', findings: fresh };
  if (faults.length > 0) return { of: 'faults', faults };
  const first = heavy.flatMap((kind) => reasons.filter((reason) => reason.kind === kind))[0];
  if (first) return { of: 'reason', reason: first };
  if (findings.length > 0) return { of: 'old-findings', findings };
  const steps = reasons.filter(({ kind }) => kind === 'step-open').length;
  if (steps > 0) return { of: 'steps', count: steps };
  const other = reasons.find(({ kind }) => !byItself.has(kind)) ?? reasons[0];
  return { of: 'reason', reason: other ?? { kind: 'not-so' } };
};
