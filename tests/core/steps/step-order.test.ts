import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findCycle, inOrder } from '../../../src/core/steps/step-order.ts';
import type { StepState, WorksheetStep } from '../../../src/core/worksheet-parts.ts';

const step = (
  id: string,
  minutes: number,
  waitsFor: readonly string[],
  state?: StepState,
): WorksheetStep => ({
  id,
  base: id,
  elapsed: 0,
  due: null,
  title: id,
  state: state ?? (waitsFor.length > 0 ? 'waiting' : 'ready'),
  waitsFor,
  because: [],
  minutes,
  needs: null,
  unequipped: false,
  points: [],
  cautions: [],
});

const ids = (steps: readonly WorksheetStep[]): string[] => steps.map(({ id }) => id);

/** Steps of a random partial order: each may wait for any that were made before it, and for a hold point. */
const someSteps = fc
  .array(
    fc.record({
      minutes: fc.integer({ min: 0, max: 5 }),
      before: fc.array(fc.nat({ max: 100 }), { maxLength: 3 }),
      held: fc.boolean(),
    }),
    { maxLength: 9 },
  )
  .chain((parts) => {
    const steps = parts.map(({ minutes, before, held }, index) => {
      const names = index === 0 ? [] : [...new Set(before.map((one) => `s${one % index}`))];
      return step(`s${index}`, minutes, held ? [...names, 'hold-point/program'] : names);
    });
    return fc.shuffledSubarray(steps, { minLength: steps.length, maxLength: steps.length });
  });

describe('the order of outstanding steps', () => {
  it('has the ready ones first, the shortest ahead, equal ones as the packs have them', () => {
    const steps = [step('c', 9, []), step('a', 5, []), step('d', 1, ['a']), step('b', 5, [])];
    expect(ids(inOrder(steps))).toEqual(['a', 'b', 'c', 'd']);
  });

  it('has each waiting one after all that it waits for, the shortest ahead among those that are free', () => {
    const steps = [
      step('learn', 15, ['configure']),
      step('configure', 10, ['program']),
      step('fit', 20, ['program']),
      step('program', 30, []),
    ];
    expect(ids(inOrder(steps))).toEqual(['program', 'configure', 'learn', 'fit']);
  });

  it('leaves out what is done or not needed', () => {
    expect(
      ids(inOrder([step('a', 1, [], 'done'), step('b', 1, [], 'not-needed'), step('c', 1, [])])),
    ).toEqual(['c']);
  });

  it('ends even where steps wait for one another', () => {
    expect(ids(inOrder([step('a', 2, ['b']), step('b', 1, ['a'])])).sort()).toEqual(['a', 'b']);
  });

  it('of any partial order loses nothing, breaks nothing, and takes the shortest of the free at each place', () => {
    fc.assert(
      fc.property(someSteps, (steps) => {
        const order = inOrder(steps);
        expect(ids(order).sort()).toEqual(ids(steps).sort());
        for (const [index, chosen] of order.entries()) {
          const left = order.slice(index);
          const pending = new Set(ids(left));
          const free = left.filter(({ waitsFor }) => !waitsFor.some((id) => pending.has(id)));
          expect(ids(free)).toContain(chosen.id);
          const readyLeft = free.filter(({ state }) => state === 'ready');
          const choice = readyLeft.length > 0 ? readyLeft : free;
          expect(ids(choice)).toContain(chosen.id);
          expect(chosen.minutes).toBe(Math.min(...choice.map(({ minutes }) => minutes)));
        }
      }),
      { numRuns: 500 },
    );
  });
});

describe('findCycle', () => {
  const graph = (edges: Readonly<Record<string, readonly string[]>>) => new Map(Object.entries(edges));

  it.each([
    ['a step that waits for itself', { a: ['a'] }, ['a', 'a']],
    ['two that wait for each other', { a: ['b'], b: ['a'] }, ['a', 'b', 'a']],
    [
      'a ring behind a tail, without the tail',
      { t: ['a'], a: ['b'], b: ['c'], c: ['a'] },
      ['a', 'b', 'c', 'a'],
    ],
  ])('finds %s', (_, edges, cycle) => {
    expect(findCycle(graph(edges))).toEqual(cycle);
  });

  it('finds none where two ways lead to one step, or to a step of another pack', () => {
    expect(findCycle(graph({ a: ['b', 'c'], b: ['d'], c: ['d'], d: ['elsewhere'] }))).toBeNull();
  });

  it('finds a path that closes exactly where trying every order finds none that serves', () => {
    const names = ['a', 'b', 'c', 'd'];
    const edges = fc.record(
      Object.fromEntries(names.map((name) => [name, fc.subarray(names)])) as Record<
        string,
        fc.Arbitrary<string[]>
      >,
    );
    const orders = (left: readonly string[]): string[][] =>
      left.length === 0
        ? [[]]
        : left.flatMap((name) =>
            orders(left.filter((other) => other !== name)).map((rest) => [name, ...rest]),
          );
    const everyOrder = orders(names);
    fc.assert(
      fc.property(edges, (after) => {
        const serves = (order: readonly string[]): boolean =>
          names.every((name) =>
            (after[name] ?? []).every((first) => order.indexOf(first) < order.indexOf(name)),
          );
        const cycle = findCycle(graph(after));
        expect(cycle === null).toBe(everyOrder.some(serves));
        if (cycle) {
          expect(cycle.length).toBeGreaterThan(1);
          expect(cycle[0]).toBe(cycle.at(-1));
          for (const [index, name] of cycle.slice(0, -1).entries())
            expect(after[name]).toContain(cycle[index + 1]);
        }
      }),
      { numRuns: 300 },
    );
  });
});
