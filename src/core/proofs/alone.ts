import { assessBriefly } from '../assess.ts';
import type { Finding } from '../finding.ts';
import type { Job } from '../job.ts';
import type { Check, Pack } from '../pack.ts';
import type { PreparedPacks } from '../prepare/prepared-packs.ts';
import type { Proof } from './prove.ts';

const nothing = { checks: [], steps: [], holdPoints: [], tests: [], evidence: [], suspects: [] } as const;

/** The packs of a proof with nothing to judge but one check, which may be another than theirs. */
const withOnly = (prepared: PreparedPacks, check: Check): PreparedPacks => ({
  ...prepared,
  packs: prepared.packs.map(
    (pack, index): Pack => ({ ...pack, ...nothing, suspectTerms: null, checks: index === 0 ? [check] : [] }),
  ),
  checks: [check],
  steps: [],
  holdPoints: [],
  stepNames: new Set(),
  vehicles: [],
});

/** What one check says of a proof's job, or of one like it: the rest of the packs is not judged, which saves most of the time. */
export const judgeAlone = (proof: Proof, check: Check, job: Job = proof.job): readonly Finding[] =>
  assessBriefly(job, withOnly(proof.prepared, check), proof.asOf).findings;
