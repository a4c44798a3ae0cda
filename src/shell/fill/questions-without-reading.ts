import { vehicleWords } from '../../core/job.ts';
import type { PreparedPacks } from '../../core/prepare/prepared-packs.ts';
import { conditionsLeft } from '../../core/wanted/conditions-left.ts';
import { factsWanted, type VehicleFact } from '../../core/wanted/vehicle-facts.ts';
import type { BriefWorksheet } from '../../core/worksheet.ts';
import { senseWords } from '../../input/fresh/sensor-sense.ts';
import { conditionQuestion, type Question, type Target } from './questions.ts';

const facts: Readonly<Record<VehicleFact, Pick<Question, 'title' | 'words'>>> = {
  battery: { title: 'as its label says', words: vehicleWords.battery },
  charging: { title: null, words: vehicleWords.charging },
  'sensor-sense': { title: 'volts as the body rises', words: senseWords },
};

const factQuestion = (fact: VehicleFact): Question => {
  const target: Target = { kind: 'vehicle' };
  return {
    id: `vehicle ${fact}`,
    target,
    name: { kind: 'vehicle', fact },
    typed: fact,
    ...facts[fact],
    remarks: [],
    unit: null,
    cautions: [],
  };
};

/**
 * What can be answered without another reading, and makes those that are there count: facts of the vehicle that matter
 * now, and conditions of snapshots that nobody stated.
 */
export const questionsWithoutReading = (sheet: BriefWorksheet, prepared: PreparedPacks): Question[] => [
  ...factsWanted(sheet).map(factQuestion),
  ...conditionsLeft(sheet, prepared).flatMap(({ snapshot, conditions }) =>
    conditions
      .map((condition) => conditionQuestion({ kind: 'snapshot', id: snapshot.id }, condition))
      .filter((question) => question !== null),
  ),
];
