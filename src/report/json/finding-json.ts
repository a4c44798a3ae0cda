import { corners } from '../../core/corner.ts';
import type { Finding, PatternRemark } from '../../core/finding.ts';
import type { Spread } from '../../core/readings/estimate.ts';
import { saysText } from '../words/finding-words.ts';

/** What a standard uncertainty is made of: the readings that it was propagated from, and what comes on top. */
const uncertaintyJson = ({ total, scatter, accuracy, beside, terms, line }: Spread) => ({
  standard: total,
  scatter,
  accuracy,
  beside: beside ?? 0,
  inputs: (terms ?? []).map(({ estimate, sensitivity }) => ({
    value: estimate.value,
    unit: estimate.unit,
    sensitivity,
    scatter: estimate.scatter,
    from: estimate.scatterFrom,
    instrument: estimate.instrument,
    offset: estimate.offset,
    offsetOf: estimate.offsetOf,
    gain: estimate.gain,
  })),
  line: line ? line.map(({ time, clock, value }) => ({ time, clock, value })) : null,
});

/** What each model of four signals came to, and the signals that it was fitted to. */
const fitJson = ({ reference, signals, fits }: PatternRemark) => ({
  reference,
  signals: corners.map((corner) => ({ corner, ...signals[corner] })),
  models: fits.map(({ name, family, place, amount, bic, weight }) => ({
    model: name,
    family,
    place,
    amount,
    bic,
    weight,
  })),
});

const patternOf = ({ remarks }: Finding): PatternRemark | null => {
  for (const remark of remarks) if (remark.kind === 'pattern') return remark;
  return null;
};

/** A finding as the machine output has it: all that its verdict was worked out from, at full precision. */
export const findingJson = (finding: Finding) => {
  const pattern = patternOf(finding);
  return {
    id: finding.id,
    check: finding.check,
    snapshot: finding.snapshot,
    subject: finding.subject,
    channels: finding.channels,
    verdict: finding.verdict,
    weight: finding.weight,
    current: finding.current,
    stale: finding.stale,
    waived: finding.waived && {
      reason: finding.waived.reason,
      by: finding.waived.by,
      until: finding.waived.until,
    },
    measured: finding.measured,
    limits: finding.limits && { ...finding.limits, unit: finding.measured?.unit ?? '' },
    inside: finding.inside,
    coverage: finding.coverage,
    decision: finding.decision,
    uncertainty: finding.spread && uncertaintyJson(finding.spread),
    tiers: finding.tiers,
    says: saysText(finding),
    pattern: finding.pattern,
    weights: pattern?.weights ?? finding.patternWeights,
    fit: pattern && fitJson(pattern),
    intermittent: finding.intermittent,
    basis: finding.basis,
  };
};
