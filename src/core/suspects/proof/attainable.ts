import type { Place } from '../../key.ts';
import { isOutcome, wantedValue } from '../confirmed.ts';
import { neutralOf } from '../evidence/spaces.ts';
import { concern } from '../hypotheses.ts';
import type { Confirmation, EvidenceGroup } from '../model.ts';
import type { Probing } from '../recorded-tests.ts';
import type { Bench } from './bench.ts';

/** Something that can stand on record: that a test found an outcome, or that a group shows a value. */
export type Fact = string;

export const foundBy = ({ id }: Probing, outcome: string): Fact => `${id} finds ${outcome}`;
export const shownBy = ({ id }: EvidenceGroup, value: string): Fact => `${id} shows ${value}`;

const shownValues = (group: EvidenceGroup, wanted: string, place: Place | null): readonly string[] => {
  const { values } = group;
  if (wanted === 'out' && !values.slice(1).includes('out'))
    return values.filter((value) => value !== neutralOf(group));
  return values.filter((value) => value === wantedValue(wanted, place));
};

/**
 * The facts of which any one answers a confirmation.
 *
 * @param place of the suspect or test that asks
 */
export const answersTo = (
  { test, found, group, shows }: Confirmation,
  place: Place | null,
  { probings, groups }: Bench,
): Fact[] => [
  ...probings
    .filter(({ probing }) => probing.test.id === test && concern(probing.place, place))
    .flatMap(({ probing }) =>
      probing.test.outcomes
        .filter(({ id }) => found.some((wanted) => isOutcome(wanted, id, place)))
        .map(({ id }) => foundBy(probing, id)),
    ),
  ...groups
    .filter((one) => one.group.base === group && concern(one.group.place, place))
    .flatMap((one) =>
      shows.flatMap((word) => shownValues(one.group, word, place).map((value) => shownBy(one.group, value))),
    ),
];

/** Whether each of some confirmations has an answer among the facts. */
export const isAttainable = (
  wanted: readonly Confirmation[],
  place: Place | null,
  bench: Bench,
  facts: ReadonlySet<Fact>,
): boolean => wanted.every((one) => answersTo(one, place, bench).some((fact) => facts.has(fact)));

/** Every fact that some sequence of readings and tests can put on record: a test waits for what must come first. */
export const attainableFacts = (bench: Bench): ReadonlySet<Fact> => {
  const facts = new Set(
    bench.groups.flatMap(({ group }) => group.values.map((value) => shownBy(group, value))),
  );
  let before = -1;
  while (facts.size > before) {
    before = facts.size;
    for (const { probing } of bench.probings) {
      if (!isAttainable(probing.test.after, probing.place, bench, facts)) continue;
      for (const { id } of probing.test.outcomes) facts.add(foundBy(probing, id));
    }
  }
  return facts;
};
