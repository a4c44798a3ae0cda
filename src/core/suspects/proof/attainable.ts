import type { Corner } from '../../corner.ts';
import { keyOf } from '../../key.ts';
import { isOutcome } from '../confirmed.ts';
import type { Confirmation, EvidenceGroup } from '../model.ts';
import type { Probing } from '../recorded-tests.ts';
import { neutralOf, spaces } from '../spaces.ts';
import type { Bench } from './bench.ts';

/** Something that can stand on record: that a test found an outcome, or that a group shows a value. */
export type Fact = string;

export const foundBy = ({ id }: Probing, outcome: string): Fact => `${id} finds ${outcome}`;
export const shownBy = ({ id }: EvidenceGroup, value: string): Fact => `${id} shows ${value}`;

const shownValues = ({ space }: EvidenceGroup, wanted: string, corner: Corner | null): readonly string[] => {
  const values: readonly string[] = spaces[space];
  if (wanted === 'out') return values.filter((value) => value !== neutralOf(space));
  return values.filter((value) => value === (wanted === 'corner' ? corner : wanted));
};

/**
 * The facts of which any one answers a confirmation.
 *
 * @param corner of the suspect or test that asks
 */
export const answersTo = (
  { test, found, group, shows }: Confirmation,
  corner: Corner | null,
  { probings, groups }: Bench,
): Fact[] => [
  ...probings
    .filter(({ probing }) => probing.test.id === test && probing.id === keyOf(test, probing.corner && corner))
    .flatMap(({ probing }) =>
      probing.test.outcomes
        .filter(({ id }) => found.some((wanted) => isOutcome(wanted, id, corner)))
        .map(({ id }) => foundBy(probing, id)),
    ),
  ...groups
    .filter((one) => one.group.id === group && shows !== null)
    .flatMap((one) => shownValues(one.group, shows ?? '', corner).map((value) => shownBy(one.group, value))),
];

/** Whether each of some confirmations has an answer among the facts. */
export const isAttainable = (
  wanted: readonly Confirmation[],
  corner: Corner | null,
  bench: Bench,
  facts: ReadonlySet<Fact>,
): boolean => wanted.every((one) => answersTo(one, corner, bench).some((fact) => facts.has(fact)));

/** Every fact that some sequence of readings and tests can put on record: a test waits for what must come first. */
export const attainableFacts = (bench: Bench): ReadonlySet<Fact> => {
  const facts = new Set(
    bench.groups.flatMap(({ group }) => spaces[group.space].map((value) => shownBy(group, value))),
  );
  let before = -1;
  while (facts.size > before) {
    before = facts.size;
    for (const { probing } of bench.probings) {
      if (!isAttainable(probing.test.after, probing.corner, bench, facts)) continue;
      for (const { id } of probing.test.outcomes) facts.add(foundBy(probing, id));
    }
  }
  return facts;
};
