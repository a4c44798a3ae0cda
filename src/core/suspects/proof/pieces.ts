import { neutralOf } from '../evidence/spaces.ts';
import { tells } from '../outcome-table.ts';
import { answersTo, type Fact, foundBy, shownBy } from './attainable.ts';
import type { Bench } from './bench.ts';

/** One thing that can be found out: a value of a group, or an outcome of a test. */
interface Step {
  readonly fact: Fact;
  /** Facts of which one each must stand on record first. */
  readonly wants: readonly (readonly Fact[])[];
  /** True for a reading that is out, which a ranking begins with. */
  readonly out: boolean;
}

/** One way for a piece of evidence to turn out, also that nothing is found out. */
export interface Option {
  readonly steps: readonly Step[];
  /** Likelihood under each rival over that under the suspect; below 1 speaks for the suspect. */
  readonly ratios: readonly number[];
}

/** Evidence of which one option comes true: a group with all tests that ask the same, or a test of its own. */
export type Piece = readonly Option[];

/** Whether one option makes another needless: no rival better off, nothing more wanted, no fact missed. */
const beats = (one: Option, other: Option, telling: ReadonlySet<Fact>): boolean =>
  one.ratios.every((ratio, place) => ratio <= (other.ratios[place] ?? 1)) &&
  one.steps.every(({ wants }) => wants.length === 0) &&
  other.steps.every(
    ({ fact, out }) =>
      (!telling.has(fact) && !out) || one.steps.some((step) => step.fact === fact && step.out === out),
  );

const useful = (options: readonly Option[], telling: ReadonlySet<Fact>): Option[] => {
  const kept: Option[] = [];
  for (const option of options) {
    if (kept.some((other) => beats(other, option, telling))) continue;
    const left = kept.filter((other) => !beats(option, other, telling));
    kept.splice(0, kept.length, ...left, option);
  }
  return kept;
};

const multiplied = (one: Option, other: Option): Option => ({
  steps: [...one.steps, ...other.steps],
  ratios: one.ratios.map((ratio, place) => ratio * (other.ratios[place] ?? 1)),
});

/**
 * All evidence that there can be, as pieces that are independent of each other. A group and the tests that ask the same
 * are one piece, in which either the readings count or the tests. Left out is what cannot be had on this layout, and
 * every option that another makes needless.
 *
 * @param suspect place of the hypothesis that is to be brought up
 * @param facts all that can be had on this layout
 * @param must facts of which one each must be on record in the end
 */
export const piecesFor = (
  suspect: number,
  bench: Bench,
  facts: ReadonlySet<Fact>,
  must: readonly (readonly Fact[])[],
): Piece[] => {
  const rivals = bench.hypotheses.flatMap((_, place) => (place === suspect ? [] : [place]));
  const ratiosOf = (row: readonly number[] | undefined): number[] =>
    rivals.map((rival) => (row?.[rival] ?? 1) / (row?.[suspect] ?? 1));
  const nothing: Option = { steps: [], ratios: rivals.map(() => 1) };
  const tested = bench.probings.map(({ probing, table }) => {
    const wants = probing.test.after.map((one) => answersTo(one, probing.place, bench));
    const doable = wants.every((each) => each.some((fact) => facts.has(fact)));
    const options = probing.test.outcomes.map(
      ({ id }, place): Option => ({
        steps: [{ fact: foundBy(probing, id), wants, out: false }],
        ratios: tells(probing) ? ratiosOf(table[place]) : nothing.ratios,
      }),
    );
    return { group: probing.test.group, wants, options: [nothing, ...(doable ? options : [])] };
  });
  const telling = new Set([...must.flat(), ...tested.flatMap(({ wants }) => wants.flat())]);
  const together = (all: readonly (readonly Option[])[]): Option[] =>
    all.reduce<Option[]>(
      (sofar, options) =>
        useful(
          sofar.flatMap((one) => options.map((other) => multiplied(one, other))),
          telling,
        ),
      [nothing],
    );
  const grouped = bench.groups.map(({ group, table }) => {
    const read = group.values.map(
      (value, place): Option => ({
        steps: [{ fact: shownBy(group, value), wants: [], out: value !== neutralOf(group) }],
        ratios: ratiosOf(table[place]),
      }),
    );
    const asked = tested.filter((one) => one.group === group.base).map(({ options }) => options);
    return useful([...together(asked), ...read], telling);
  });
  const alone = tested.filter((one) => one.group === null).map(({ options }) => useful(options, telling));
  return [...grouped, ...alone].filter((piece) => piece.some(({ steps }) => steps.length > 0));
};
