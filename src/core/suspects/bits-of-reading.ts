import type { Finding } from '../finding.ts';
import { expectedInformation, type OutcomeTable } from './information.ts';
import type { EvidenceGroup, Source } from './model.ts';
import { withSlips } from './strengths.ts';
import type { GroupModel } from './suspect-model.ts';
import type { WeighedSuspects } from './weigh.ts';
import { chancesInWorlds } from './worlds.ts';

const isFrom = (source: Source, { check, subject }: Finding): boolean => {
  if (source.kind === 'corners') return source.checks.includes(check);
  return (
    source.kind === 'finding' &&
    source.check === check &&
    (source.subject === null || source.subject === subject)
  );
};

const isFedBy = ({ sources }: EvidenceGroup, findings: readonly Finding[]): boolean =>
  sources.some((source) => findings.some((one) => isFrom(source, one)));

const tableOf = ({ group: { values }, chances }: GroupModel, { worlds }: WeighedSuspects): OutcomeTable => {
  const inWorlds = chancesInWorlds(chances, values, worlds);
  return values.map((_, place) => inWorlds.map((one) => withSlips(one[place] ?? 0, 1 / values.length)));
};

/**
 * Bits that readings are expected to give about what is wrong, before they are taken: the most that any one group of
 * evidence gives of those that they would feed and that nothing has fed yet.
 *
 * @param findings what the readings would settle
 */
export const bitsOfReading = (findings: readonly Finding[], weighed: WeighedSuspects): number =>
  Math.max(
    0,
    ...weighed.model.groups
      .filter(({ group }) => !weighed.evidence.observed.has(group.id) && isFedBy(group, findings))
      .map((one) => expectedInformation(weighed.probabilities, tableOf(one, weighed))),
  );
