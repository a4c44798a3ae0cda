import type { Corner } from '../../corner.ts';
import { keyOf } from '../../key.ts';
import { fittedPlaces } from '../hypotheses.ts';
import type { EvidenceGroup } from '../model.ts';

/** The groups of evidence of a vehicle: one a fitted corner or axle where a group stands for places. */
export const groupInstances = (
  groups: readonly EvidenceGroup[],
  fitted: readonly Corner[],
): EvidenceGroup[] =>
  groups.flatMap((group) =>
    fittedPlaces(group.per, fitted).map((place) =>
      place === null
        ? group
        : { ...group, id: keyOf(group.base, place), place, title: `${group.title}, ${place}` },
    ),
  );
