import type { Finding, Missing } from '../finding.ts';
import type { Check, Scene } from '../pack.ts';
import type { Subject } from './measuring.ts';
import { waiverFor } from './waivers.ts';

/** A finding's stable name; a check that found no snapshot has none in it. */
export const findingId = (check: string, subject: string, snapshot: string | null): string =>
  snapshot === null ? `${check}:${subject}` : `${check}:${subject}@${snapshot}`;

/** A `not-taken` finding: once for a check and subject, bearing no snapshot. */
export const notTaken = (
  check: Check,
  scene: Scene,
  subject: Subject,
  reason: Missing,
  basis = check.basis,
): Finding => ({
  id: findingId(check.id, subject.name, null),
  check: check.id,
  kind: check.kind,
  checkTitle: check.title,
  snapshot: null,
  state: null,
  subject: subject.name,
  channels: subject.channels,
  verdict: 'not-taken',
  weight: 'note',
  current: true,
  stale: false,
  newest: true,
  waived: waiverFor(scene.job, check.id, subject.name),
  measured: null,
  limits: null,
  inside: null,
  words: null,
  side: null,
  settle: null,
  missing: reason,
  remarks: [],
  basis,
  wanted: check.wanted === 'always',
  moment: check.moment,
  readIn: check.states,
});
