import type { Finding } from '../finding.ts';
import { judgeSubject } from './judge-subject.ts';
import type { Kind } from './kind.ts';
import type { Measured, MeasuringParts } from './measuring-parts.ts';
import { notTaken } from './not-taken.ts';
import { vehicleRulesOut } from './refusal.ts';
import { tierLines } from './tiers.ts';

/** Makes a kind that judges readings. */
export const measuring = <Parameters extends Measured>(
  parts: MeasuringParts<Parameters>,
): Kind<Parameters> => ({
  kind: parts.kind,
  about: parts.about,
  properties: parts.properties,
  required: parts.required,
  afterSteps: false,
  read: parts.read,
  limits: (parameters) => parts.limits?.(parameters) ?? tierLines(parameters.tiers, parameters.unit ?? ''),
  unit: ({ unit }) => unit,
  tiers: ({ tiers }) => tiers,
  subjects: parts.subjects,
  judge: (plan, parameters, context) => {
    if (!plan.served) return [];
    const { job, channels, read } = context;
    const { layout, fitted } = job.vehicle;
    const subjects =
      plan.subjects ?? parts.subjects(parameters, { layout, fitted, channels }, (key) => read.has(key));
    const ruledOut = vehicleRulesOut(plan, job.vehicle);
    if (ruledOut) return subjects.map((subject) => notTaken(plan.check, context, subject, ruledOut));
    const fitting = job.snapshots.filter(({ state }) => plan.fitting[state] !== undefined);
    const findings: Finding[] = [];
    for (const subject of subjects)
      judgeSubject({ plan, parts, parameters, context, subject, fitting }, findings);
    return findings;
  },
});
