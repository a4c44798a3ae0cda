import type { Place } from '../../key.ts';
import { concern } from '../hypotheses.ts';
import { expectedInformation, type OutcomeTable } from '../information.ts';
import { tells } from '../outcome-table.ts';
import { normalised } from '../posterior.ts';
import { connectedSets, isBlurred } from './alike.ts';
import { attainableFacts, isAttainable } from './attainable.ts';
import type { Bench } from './bench.ts';
import { overlapIn } from './overlap.ts';

/** Bits below which a test says nothing of a group. */
const nothing = 0.01;

/** A test that splits a group, with the information that it is expected to give within it. */
export interface Split {
  /** The test, without a corner. */
  readonly id: string;
  readonly title: string;
  /** With its preparation. */
  readonly minutes: number;
  /** Of what is still open when it is done, by the priors of those that it is to tell apart. */
  readonly bits: number;
}

export interface Splitting {
  /** In the order of doing them, the most telling first. */
  readonly tests: readonly Split[];
  /** Places of hypotheses that no test of the pack tells apart. */
  readonly left: readonly (readonly number[])[];
}

type Candidate = Bench['probings'][number];

/** What a test is expected to tell within a set of hypotheses, of which one is at fault, in bits. */
const bitsWithin = ({ table }: Candidate, set: readonly number[], { hypotheses }: Bench): number =>
  expectedInformation(
    normalised(set.map((place) => hypotheses[place]?.prior ?? 0)),
    table.map((row) => set.map((place) => row[place] ?? 0)),
  );

const splitBy = (
  set: readonly number[],
  seen: readonly OutcomeTable[],
  candidates: readonly Candidate[],
  bench: Bench,
): { readonly done: readonly (Candidate & { bits: number })[]; readonly left: readonly number[][] } => {
  const rated = candidates.map((one) => ({ ...one, bits: bitsWithin(one, set, bench) }));
  const [best] = rated.sort((a, b) => b.bits - a.bits);
  if (!best || best.bits < nothing) return { done: [], left: [[...set]] };
  const tables = [...seen, best.table];
  const parts = connectedSets(set, (one, other) => isBlurred(overlapIn(tables, one, other)));
  const others = candidates.filter(({ probing }) => probing !== best.probing);
  const further = parts
    .filter(({ length }) => length > 1)
    .map((part) => splitBy(part, tables, others, bench));
  return {
    done: [best, ...further.flatMap(({ done }) => done)],
    left: further.flatMap(({ left }) => left),
  };
};

/**
 * The tests that tell apart what readings do not: the one that is expected to give most within the set, then the best
 * within each part that it leaves, until none is left or no test says anything of it.
 *
 * @param set places of hypotheses
 * @param places at which tests may be done, and on whose axle; those of the whole vehicle always may
 */
export const splittingOf = (set: readonly number[], places: readonly Place[], bench: Bench): Splitting => {
  const facts = attainableFacts(bench);
  const candidates = bench.probings.filter(
    ({ probing }) =>
      tells(probing) &&
      (probing.place === null || places.some((one) => concern(probing.place, one))) &&
      isAttainable(probing.test.after, probing.place, bench, facts),
  );
  const readings = bench.groups.map(({ table }) => table);
  const { done, left } = splitBy(set, readings, candidates, bench);
  const tests = new Map<string, Split>();
  for (const { probing, bits } of done) {
    const { id, title, minutes, setUp } = probing.test;
    if (!tests.has(id)) tests.set(id, { id, title, minutes: minutes + (setUp?.minutes ?? 0), bits });
  }
  return { tests: [...tests.values()], left };
};
