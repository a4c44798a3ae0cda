import type { Finding } from '../finding.ts';
import { groupTable } from './evidence/group-row.ts';
import { isFrom } from './evidence/observe.ts';
import { expectedInformation } from './information.ts';
import type { EvidenceGroup } from './model.ts';
import type { WeighedSuspects } from './weigh.ts';
import { chancesInWorlds } from './worlds.ts';

const isFedBy = (group: EvidenceGroup, findings: readonly Finding[]): boolean =>
  group.sources.some((source) => findings.some((one) => isFrom(source, group, one)));

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
      .map(({ group, chances }) =>
        expectedInformation(
          weighed.probabilities,
          groupTable(group, chancesInWorlds(chances, group.values, weighed.worlds)),
        ),
      ),
  );
