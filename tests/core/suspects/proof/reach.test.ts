import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Option, Piece } from '../../../../src/core/suspects/proof/pieces.ts';
import { reachOf } from '../../../../src/core/suspects/proof/reach.ts';
import { canHappen, oddsAfter, sum } from '../../../../src/core/suspects/proof/sequences.ts';

const step = (fact: string, wants: readonly string[] = [], out = false) => ({
  fact,
  wants: wants.map((one) => [one]),
  out,
});
const nothing: Option = { steps: [], ratios: [1, 1] };
const finding: Piece = [nothing, { steps: [step('low', [], true)], ratios: [0.5, 0.5] }];

describe('how far a suspect can be brought', () => {
  it('is over where findings and tests together bring it there, and says by which', () => {
    const test: Piece = [
      nothing,
      { steps: [step('good')], ratios: [0.1, 0.1] },
      { steps: [step('bad')], ratios: [5, 5] },
    ];
    // Odds 4 · ½ · 0.1 = 0.2 against it.
    expect(reachOf([finding, test], [2, 2], 0.8)).toMatchObject({ verdict: 'over', by: ['low', 'good'] });
    const short = reachOf([finding, test], [2, 2], 0.9);
    expect(short.verdict).toBe('short');
    expect(short.best).toBeCloseTo(1 / 1.2, 12);
  });

  it('begins with a finding that is out', () => {
    expect(reachOf([[nothing, { steps: [step('good')], ratios: [0.01, 0.01] }]], [1, 1], 0.5)).toMatchObject({
      verdict: 'short',
      best: null,
    });
  });

  it('does no test before what must come first', () => {
    const test: Piece = [nothing, { steps: [step('late', ['early'])], ratios: [0.01, 0.01] }];
    const before: Piece = [nothing, { steps: [step('early')], ratios: [1.5, 1.5] }];
    expect(reachOf([finding, test], [1, 1], 0.9).verdict).toBe('short');
    expect(reachOf([finding, test, before], [1, 1], 0.9)).toMatchObject({
      verdict: 'over',
      by: ['low', 'early', 'late'],
    });
  });

  it('is not helped by two tests that wait for each other', () => {
    const one: Piece = [nothing, { steps: [step('a', ['b'])], ratios: [0.01, 0.01] }];
    const other: Piece = [nothing, { steps: [step('b', ['a'])], ratios: [0.01, 0.01] }];
    expect(reachOf([finding, one, other], [1, 1], 0.9).verdict).toBe('short');
  });

  it('keeps on record what must be, though it may speak against', () => {
    const test: Piece = [
      nothing,
      { steps: [step('good')], ratios: [0.1, 0.1] },
      { steps: [step('bad')], ratios: [5, 5] },
    ];
    expect(reachOf([finding, test], [1, 1], 0.8, [['bad']]).verdict).toBe('short');
    expect(reachOf([finding, test], [1, 1], 0.16, [['bad']])).toMatchObject({
      verdict: 'over',
      by: ['low', 'bad'],
    });
  });
});

const ratio = fc.double({ min: 0.1, max: 4, noNaN: true });
const options = (place: number) =>
  fc
    .array(
      fc.record({ ratios: fc.tuple(ratio, ratio, ratio), out: fc.boolean(), wants: fc.option(fc.nat(3)) }),
      {
        minLength: 1,
        maxLength: 3,
      },
    )
    .map(
      (all): Piece => [
        { steps: [], ratios: [1, 1, 1] },
        ...all.map(({ ratios, out, wants }, at) => ({
          ratios,
          steps: [step(`${place}-${at}`, wants === null ? [] : [`${wants}-0`], out)],
        })),
      ],
    );
const problem = fc.record({
  pieces: fc.tuple(options(0), options(1), options(2), options(3)),
  odds: fc.tuple(ratio, ratio, ratio),
  threshold: fc.double({ min: 0.2, max: 0.98, noNaN: true }),
  must: fc.option(fc.nat(3)),
});

describe('the search', () => {
  it('finds what trying every way finds', () => {
    fc.assert(
      fc.property(problem, ({ pieces, odds, threshold, must }) => {
        const wanted = must === null ? [] : [[`${must}-0`]];
        const ways = pieces.reduce<(readonly Option[])[]>(
          (sofar, piece) => sofar.flatMap((way) => piece.map((option) => [...way, option])),
          [[]],
        );
        const least = Math.min(
          ...ways.filter((way) => canHappen(way, wanted)).map((way) => sum(oddsAfter(odds, way))),
        );
        const { verdict, best } = reachOf(pieces, odds, threshold, wanted);
        expect(verdict).toBe(1 / (1 + least) > threshold ? 'over' : 'short');
        if (verdict === 'short' && best !== null) expect(best).toBeCloseTo(1 / (1 + least), 9);
        if (verdict === 'short' && best === null) expect(least).toBe(Number.POSITIVE_INFINITY);
        if (verdict === 'over') expect(best).toBeGreaterThan(threshold);
      }),
      { seed: 9, numRuns: 300 },
    );
  });
});
