import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { connectedSets, isBlurred, oftenWrong } from '../../../../src/core/suspects/proof/alike.ts';
import { leastError } from '../../../../src/core/suspects/proof/overlap.ts';

describe('two are blurred', () => {
  it('from one wrong in five on, which is an overlap of 0.8', () => {
    expect(leastError(0.8)).toBeCloseTo(oftenWrong, 12);
    expect(isBlurred(0.8)).toBe(true);
    expect(isBlurred(0.799)).toBe(false);
    expect(isBlurred(1)).toBe(true);
  });
});

const graph = fc.integer({ min: 1, max: 7 }).chain((size) =>
  fc.record({
    size: fc.constant(size),
    edges: fc.array(fc.tuple(fc.nat(size - 1), fc.nat(size - 1)), { maxLength: 8 }),
  }),
);

type Alike = (a: number, b: number) => boolean;

/** Warshall's closure, as a second way to the same. */
const closure = (all: readonly number[], direct: Alike): Alike =>
  all.reduce<Alike>(
    (reaches, by) => {
      const pairs = all.map((a) => all.map((b) => reaches(a, b) || (reaches(a, by) && reaches(by, b))));
      return (a, b) => pairs[a]?.[b] ?? false;
    },
    (a, b) => a === b || direct(a, b),
  );

describe('connected sets', () => {
  it('join what is alike by way of others, and keep the order', () => {
    const alike = (a: string, b: string): boolean => ['ac', 'ca', 'cd', 'dc'].includes(a + b);
    expect(connectedSets(['a', 'b', 'c', 'd'], alike)).toEqual([['a', 'c', 'd'], ['b']]);
  });

  it('are those that a walk along any number of edges finds', () => {
    fc.assert(
      fc.property(graph, ({ size, edges }) => {
        const all = Array.from({ length: size }, (_, place) => place);
        const direct = (a: number, b: number): boolean =>
          edges.some(([from, to]) => (from === a && to === b) || (from === b && to === a));
        const reaches = closure(all, direct);
        const sets = connectedSets(all, direct);
        expect(sets.flat().sort()).toEqual(all);
        for (const a of all)
          for (const b of all)
            expect(sets.some((set) => set.includes(a) && set.includes(b))).toBe(reaches(a, b));
      }),
      { seed: 3, numRuns: 200 },
    );
  });
});
