import type { Finding } from '../finding.ts';
import type { Check, Scene } from '../pack.ts';
import { waiverFor } from './waivers.ts';

/** A finding's stable name; a check that found no snapshot has none in it. */
export const findingId = (check: string, subject: string, snapshot: string | null): string =>
  snapshot === null ? `${check}:${subject}` : `${check}:${subject}@${snapshot}`;

/** What every finding of a check on a subject has in common, with nothing measured and nothing said yet. */
export const baseFinding = (
  check: Check,
  scene: Scene,
  subject: string,
): Omit<Finding, 'verdict' | 'weight' | 'channels'> => ({
  id: findingId(check.id, subject, null),
  check: check.id,
  kind: check.kind,
  checkTitle: check.title,
  snapshot: null,
  state: null,
  subject,
  current: true,
  stale: false,
  newest: true,
  waived: waiverFor(scene.job, check.id, subject),
  measured: null,
  limits: null,
  inside: null,
  words: null,
  side: null,
  settle: null,
  missing: null,
  remarks: [],
  basis: check.basis,
  wanted: check.wanted === 'always',
  moment: check.moment,
  readIn: check.states,
});
