import type { Finding, Missing, Remark } from '../finding.ts';
import type { Check } from '../pack.ts';
import type { CheckContext } from './check-context.ts';
import { findingOf } from './finding-base.ts';
import type { Subject } from './subjects.ts';

const nothingToRemark: readonly Remark[] = [];

/** A `not-taken` finding: once for a check and subject, bearing no snapshot. */
export const notTaken = (
  check: Check,
  context: CheckContext,
  { name, channels }: Subject,
  missing: Missing,
  basis = check.basis,
): Finding =>
  findingOf(check, context, name, null, {
    channels,
    verdict: 'not-taken',
    weight: 'note',
    missing,
    words: null,
    remarks: nothingToRemark,
    basis,
  });
