import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Layout, layouts } from '../../../../src/core/job.ts';
import type { Pack } from '../../../../src/core/pack.ts';
import { benchOf } from '../../../../src/core/suspects/proof/bench.ts';
import { type Blur, blursOf } from '../../../../src/core/suspects/proof/blurs.ts';
import { proofPack, suspect } from './proof-pack.ts';

const blurs = (pack: Pack, on: readonly Layout[] = layouts): Blur[] =>
  blursOf(on.flatMap((layout) => benchOf(pack, layout) ?? []));

const parts = (pack: Pack): string[][] =>
  blurs(pack)
    .filter(({ what }) => what === 'parts')
    .map(({ members }) => members.map(({ id }) => id));

const low = 'expects: [{group: supply, shows: low, how: usually}]';
const otherwise = 'expects: [{group: reference, shows: low, how: usually}]';
const atCorner = 'per: corner, expects: [{group: corners, shows: corner, how: usually}]';

const split = (one: string, how: number, more = ''): string =>
  `{id: try-${one}, title: Try ${one}, minutes: 6, ${more}outcomes: [{id: yes, title: it is, how: {${one}: ${how}, others: ${(1 - how).toFixed(2)}}}, {id: no, title: it is not, how: {${one}: ${(1 - how).toFixed(2)}, others: ${how}}}]}`;

describe('suspects that readings cannot tell apart', () => {
  it('are those that show the same, and no others', () => {
    const pack = proofPack([suspect('feed', low), suspect('wire', low), suspect('module', otherwise)]);
    expect(blurs(pack)).toEqual([
      {
        layouts,
        what: 'parts',
        members: [
          { id: 'feed', title: 'feed', perCorner: false },
          { id: 'wire', title: 'wire', perCorner: false },
        ],
        splits: [],
        left: [['feed', 'wire']],
      },
    ]);
  });

  it('hang together by way of others', () => {
    const sign = (how: number): string => `expects: [{group: supply, shows: low, how: ${how}}]`;
    // The ends differ too much to be taken for each other; the middle is taken for either.
    const pack = proofPack([suspect('a', sign(0.1)), suspect('b', sign(0.5)), suspect('c', sign(0.95))]);
    expect(parts(pack)).toEqual([['a', 'b', 'c']]);
    expect(parts(proofPack([suspect('a', sign(0.1)), suspect('c', sign(0.95))]))).toEqual([]);
  });

  it('are of one corner, once and not four times', () => {
    const pack = proofPack([suspect('sensor', atCorner), suspect('wire', atCorner), suspect('feed', low)]);
    expect(blurs(pack)).toMatchObject([
      { layouts, what: 'parts', members: [{ id: 'sensor', perCorner: true }, { id: 'wire' }] },
    ]);
  });

  it('may be one part at any of its corners', () => {
    const pack = proofPack([suspect('damper', 'per: corner'), suspect('feed', low)]);
    expect(blurs(pack, ['rear-air-assist'])).toMatchObject([
      { what: 'corner', members: [{ id: 'damper' }], left: [['damper.LR', 'damper.RR']] },
    ]);
  });

  it('are told of the layouts that have them', () => {
    const pack = proofPack([
      suspect('feed', `layouts: [four-corner-air], ${low}`),
      suspect('wire', low),
      suspect('module', otherwise),
    ]);
    expect(blurs(pack)).toMatchObject([{ layouts: ['four-corner-air'] }]);
  });
});

describe('the tests that split a group', () => {
  it('begin with the one that tells most within it, and go on with what it leaves', () => {
    const pack = proofPack(
      [suspect('a', low), suspect('b', low), suspect('c', low), suspect('far', otherwise)],
      [split('a', 0.9), split('b', 0.95, 'set-up: {id: stands, minutes: 8}, '), split('far', 0.95)],
    );
    expect(blurs(pack)).toMatchObject([
      {
        splits: [
          { id: 'try-b', title: 'Try b', minutes: 14 },
          { id: 'try-a', minutes: 6 },
        ],
        left: [],
      },
    ]);
  });

  it('leave what none of them tells apart', () => {
    const pack = proofPack([suspect('a', low), suspect('b', low), suspect('c', low)], [split('a', 0.95)]);
    expect(blurs(pack)).toMatchObject([{ splits: [{ id: 'try-a' }], left: [['b', 'c']] }]);
  });

  it('are none that can never be done', () => {
    const pack = proofPack(
      [suspect('a', low), suspect('b', low)],
      [
        split('a', 0.95, 'after: [{test: try-b, found: yes}], '),
        split('b', 0.95, 'after: [{test: try-a, found: yes}], '),
      ],
    );
    expect(blurs(pack)).toMatchObject([{ splits: [], left: [['a', 'b']] }]);
  });

  it('carry the information that Shannon counts: a perfect split of two alike would be one bit', () => {
    const pack = proofPack([suspect('a', low), suspect('b', low)], [split('a', 0.98)]);
    const bits = blurs(pack)[0]?.splits[0]?.bits ?? 0;
    // 0.98 with slips of 2 % is 0.9704 against 0.0296: 1 − h(0.0296).
    expect(bits).toBeCloseTo(1 + 0.9704 * Math.log2(0.9704) + 0.0296 * Math.log2(0.0296), 9);
  });
});

const sign = fc.record({
  group: fc.constantFrom('supply', 'reference', 'battery'),
  how: fc.integer({ min: 0, max: 100 }),
});

describe('whatever suspects show', () => {
  it('two with the same signs stand in one group, and a test that tells them apart splits it', () => {
    fc.assert(
      fc.property(sign, fc.array(sign, { maxLength: 3 }), (own, others) => {
        const text = ({ group, how }: typeof own): string =>
          `expects: [{group: ${group}, shows: low, how: ${how / 100}}]`;
        const all = [
          suspect('one', text(own)),
          suspect('two', text(own)),
          ...others.map((other, place) => suspect(`x${place}`, text(other))),
        ];
        const together = (one: Blur): boolean =>
          one.members.some(({ id }) => id === 'one') && one.members.some(({ id }) => id === 'two');
        const blur = blurs(proofPack(all)).find(together);
        expect(blur?.left).toEqual([blur?.members.map(({ id }) => id)]);
        const tested = blurs(proofPack(all, [split('one', 0.98)])).find(together);
        expect(tested?.splits.map(({ id }) => id)).toEqual(['try-one']);
        expect(tested?.left.flat()).not.toContain('one');
      }),
      { seed: 5, numRuns: 40 },
    );
  });

  it('their order is no matter', () => {
    const shuffled = fc.array(sign, { minLength: 2, maxLength: 5 }).chain((signs) =>
      fc.record({
        signs: fc.constant(signs),
        order: fc.shuffledSubarray(
          signs.map((_, place) => place),
          { minLength: signs.length },
        ),
      }),
    );
    fc.assert(
      fc.property(shuffled, ({ signs, order }) => {
        const all = signs.map(({ group, how }, place) =>
          suspect(`x${place}`, `expects: [{group: ${group}, shows: low, how: ${how / 100}}]`),
        );
        const sets = (from: readonly string[]): string[] =>
          parts(proofPack(from))
            .map((set) => [...set].sort().join(' '))
            .sort();
        expect(sets(order.map((place) => all[place] ?? ''))).toEqual(sets(all));
      }),
      { seed: 6, numRuns: 40 },
    );
  });
});
