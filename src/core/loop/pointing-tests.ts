import { isLater, isRepair } from '../steps/staleness.ts';
import { tells, usualOutcome } from '../suspects/outcome-table.ts';
import { isMendedBy } from '../suspects/stakes.ts';
import type { SuspectModel } from '../suspects/suspect-model.ts';
import type { WeighedSuspects } from '../suspects/weigh.ts';

/** A test on record that found what a good vehicle does not show. */
export interface PointingTest {
  /** `soap-fittings.LR` */
  readonly test: string;
  readonly title: string;
  readonly found: string;
  /** The place of the one hypothesis that it points to, as nothing else does; null where it points to several. */
  readonly alone: number | null;
  /** Places of all that would make it find this clearly more often than a good part does. */
  readonly towards: readonly number[];
}

/** A test points to what makes its finding so many times as likely as anything else does. Judgement, from memory. */
const clearly = 3;

/** Chances of an outcome under a part that has nothing to do with the test: the middle of all. */
const backgroundOf = (row: readonly number[], { hypotheses }: SuspectModel): number => {
  const sorted = hypotheses
    .flatMap(({ suspect }, place) => (suspect === null ? [] : [row[place] ?? 0]))
    .sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
};

/**
 * Places of the hypotheses that make an outcome clearly more likely than a good part does.
 *
 * @param row P(outcome | hypothesis)
 */
export const pointsTowards = (row: readonly number[], model: SuspectModel): number[] => {
  const background = backgroundOf(row, model);
  return model.hypotheses.flatMap(({ suspect }, place) =>
    suspect !== null && (row[place] ?? 0) >= clearly * background ? [place] : [],
  );
};

/** What a test that found something points to. */
const pointedAt = (row: readonly number[], model: SuspectModel): Pick<PointingTest, 'alone' | 'towards'> => {
  const chance = (place: number): number => row[place] ?? 0;
  const towards = pointsTowards(row, model);
  const [best] = [...towards].sort((a, b) => chance(b) - chance(a));
  const rivals = towards.filter((place) => {
    const [one, other] = [model.hypotheses[best ?? -1], model.hypotheses[place]];
    return one !== undefined && other !== undefined && !isMendedBy(other, one) && !isMendedBy(one, other);
  });
  const isAlone = best !== undefined && rivals.every((place) => chance(best) >= clearly * chance(place));
  return { alone: isAlone ? best : null, towards };
};

/** Tests on record, and current, that found what a good vehicle does not show; an inspection is none of them. */
export const pointingTests = ({ evidence, model }: WeighedSuspects): PointingTest[] =>
  evidence.probings.flatMap((probing): PointingTest[] => {
    const place = evidence.recorded.get(probing.id);
    if (place === undefined || probing.inspects !== null || !tells(probing)) return [];
    if (place === usualOutcome(probing)) return [];
    const { id, test } = probing;
    return [
      {
        test: id,
        title: probing.place === null ? test.title : `${test.title}, ${probing.place}`,
        found: test.outcomes[place]?.id ?? '',
        ...pointedAt(probing.outcomes[place] ?? [], model),
      },
    ];
  });

/** Whether anything was repaired after the newest entry of a test. */
export const isRepairedSince = (test: string, { job: { log } }: WeighedSuspects): boolean => {
  const entry = log.findLast(({ did, what }) => did === 'tested' && what === test);
  return entry !== undefined && log.some((one) => isRepair(one) && isLater(one, entry));
};
