import type { Finding, Missing } from '../finding.ts';
import type { Check, Scene } from '../pack.ts';
import { baseFinding } from './finding-base.ts';
import type { Subject } from './measuring.ts';

/** A `not-taken` finding: once for a check and subject, bearing no snapshot. */
export const notTaken = (
  check: Check,
  scene: Scene,
  subject: Subject,
  missing: Missing,
  basis = check.basis,
): Finding => ({
  ...baseFinding(check, scene, subject.name),
  channels: subject.channels,
  verdict: 'not-taken',
  weight: 'note',
  missing,
  basis,
});
