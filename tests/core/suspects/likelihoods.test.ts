import { describe, expect, it } from 'vitest';
import type { Place } from '../../../src/core/key.ts';
import { groupInstances } from '../../../src/core/suspects/evidence/group-instances.ts';
import {
  chancesUnder,
  groupRow,
  groupTable,
  valueChances,
} from '../../../src/core/suspects/evidence/group-row.ts';
import { inSpace, neutralOf, type SpaceName, spaces } from '../../../src/core/suspects/evidence/spaces.ts';
import { type Hypothesis, hypothesesOf, meanOverListed } from '../../../src/core/suspects/hypotheses.ts';
import type { EvidenceGroup, Sign, Suspect } from '../../../src/core/suspects/model.ts';
import { strengths, withSlips } from '../../../src/core/suspects/strengths.ts';
import { keyOn } from '../../support/judge.ts';
import { benchChecks, rank, signals } from './bench-pack.ts';

const group = (space: SpaceName, more: Partial<EvidenceGroup> = {}): EvidenceGroup => ({
  id: 'g',
  base: 'g',
  per: 'vehicle',
  place: null,
  title: 'Group',
  space,
  values: spaces[space],
  sources: [],
  levelled: false,
  refines: false,
  follows: [],
  byChance: null,
  ...more,
});

const suspect = (expects: readonly Sign[], more: Partial<Suspect> = {}): Suspect => ({
  id: 's',
  per: 'vehicle',
  title: 'suspect',
  layouts: null,
  prior: 1,
  raisedBy: [],
  raise: 5,
  wrongPart: { amount: 0, minutes: 0 },
  confirm: [],
  component: 's',
  isPart: true,
  isCoded: false,
  repaired: true,
  inspect: { minutes: 3, sees: 0.35 },
  modes: [],
  expects,
  ...more,
});

const hypothesis = (expects: readonly Sign[], place: Place | null = null): Hypothesis => ({
  id: 's',
  title: 'suspect',
  place,
  suspect: suspect(expects),
  prior: 1,
});

/** A sign of the group of these tests: what it shows, how often, and what else it depends on. */
const sign = (shows: string | readonly string[], how: number, more: Partial<Sign> = {}): Sign => ({
  group: 'g',
  shows: typeof shows === 'string' ? [shows] : shows,
  how,
  levelling: null,
  at: null,
  ...more,
});

const chances = (space: SpaceName, signs: readonly Sign[], place: Place | null = null) =>
  Object.fromEntries(valueChances(group(space), hypothesis(signs, place)));

describe('how often a suspect shows what', () => {
  it('has six words', () => {
    expect(strengths).toEqual({
      always: 0.97,
      usually: 0.85,
      often: 0.65,
      sometimes: 0.35,
      rarely: 0.1,
      never: 0.02,
    });
  });

  it('leaves the rest to what a good vehicle shows, but for a little', () => {
    const { within, low, high } = chances('sides', [sign('low', 0.85)]);
    expect(low).toBe(0.85);
    expect(within).toBeCloseTo(0.13, 12);
    expect(high).toBe(0.02);
  });

  it('is what a good vehicle shows where nothing is said', () => {
    expect(chances('out', [])).toEqual({ within: 0.99, out: 0.01 });
    // A false alarm is one in a hundred of the group, however many values it has.
    for (const [space, values] of Object.entries(spaces)) {
      const [good, ...others] = Object.values(chances(space as SpaceName, []));
      expect(good).toBeCloseTo(0.99, 12);
      expect(others).toEqual(Array(values.length - 1).fill(expect.closeTo(0.01 / (values.length - 1), 12)));
    }
  });

  it('never goes beyond 0.02 and 0.98', () => {
    expect(chances('out', [sign('out', 1)])).toEqual({ within: 0.02, out: 0.98 });
    expect(chances('out', [sign('out', 0)])).toEqual({ within: 0.98, out: 0.02 });
  });

  it('may be said of several values, and of the good one', () => {
    const said = chances('sides', [sign('low', 0.5), sign('high', 0.4)]);
    expect(said.within).toBeCloseTo(0.1, 12);
    const good = chances('sides', [sign('within', 0.6)]);
    expect(good.low).toBeCloseTo(0.2, 12);
    expect(good.high).toBeCloseTo(0.2, 12);
  });

  it('is shared where the direction is left open', () => {
    expect(chances('sides', [sign('out', 0.8)])).toMatchObject({ low: 0.4, high: 0.4 });
  });

  it('is of its own corner where the suspect has one; the first packs write corner for it', () => {
    for (const own of ['own', 'corner'])
      expect(chances('corners', [sign(own, 0.85)], 'LR')).toMatchObject({ LR: 0.85, LF: 0.02 });
  });

  it('is of a spring at its own corner, or of its own axle', () => {
    expect(chances('pattern', [sign('own-spring', 0.65)], 'RF')).toMatchObject({
      'spring-RF': 0.65,
      RF: 0.02,
    });
    expect(chances('axles', [sign('own-low', 0.85)], 'rear')).toMatchObject({ 'low-rear': 0.85, low: 0.02 });
    expect(chances('axles', [sign('own-high', 0.85)], 'front')).toMatchObject({ 'high-front': 0.85 });
  });

  it('is shared among several values in equal parts, and among the corners for any', () => {
    expect(chances('pattern', [sign(['side', 'axle'], 0.6)])).toMatchObject({ side: 0.3, axle: 0.3 });
    const any = chances('corners', [sign('any', 0.8)]);
    for (const corner of ['LF', 'RF', 'LR', 'RR']) expect(any[corner]).toBeCloseTo(0.2, 12);
    expect(any.several).toBe(0.02);
  });

  it('sums to 1 over the values where what is stated lies between 0.02 and 0.98', () => {
    for (const space of Object.keys(spaces) as SpaceName[]) {
      const values = spaces[space];
      const all = Object.values(chances(space, [sign(values[1], 0.5)]));
      expect(all.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
    }
  });
});

describe('a sign that depends on levelling', () => {
  const signs = [sign('low', 0.85, { levelling: 'off' }), sign('high', 0.65, { levelling: 'active' })];
  const under = (levelling: 'active' | 'off') =>
    Object.fromEntries(valueChances(group('sides'), hypothesis(signs), levelling));

  it('counts only for readings that were taken so', () => {
    expect(under('off')).toMatchObject({ low: 0.85, high: 0.02 });
    expect(under('active')).toMatchObject({ low: 0.02, high: 0.65 });
  });

  it('leaves the suspect without a sign otherwise', () => {
    const only = valueChances(group('sides'), hypothesis(signs.slice(0, 1)), 'active');
    expect(only.get('low')).toBeCloseTo(0.005, 12);
  });
});

describe('a group at each corner or axle', () => {
  const at = (place: Place, expects: readonly Sign[], own: Place | null) =>
    valueChances(group('out', { id: `g.${place}`, place }), hypothesis(expects, own)).get('out');

  it('is shown by the suspect of that place, of its axle, and of the whole vehicle', () => {
    const signs = [sign('out', 0.85)];
    expect(at('LR', signs, 'LR')).toBe(0.85);
    expect(at('LR', signs, 'rear')).toBe(0.85);
    expect(at('rear', signs, 'LR')).toBe(0.85);
    expect(at('LR', signs, null)).toBe(0.85);
  });

  it('is a false alarm for the suspect of another place', () => {
    expect(at('LR', [sign('out', 0.85)], 'RR')).toBe(0.01);
    expect(at('LR', [sign('out', 0.85)], 'front')).toBe(0.01);
  });

  it('is shown only at the axle that the sign names', () => {
    const front = [sign('out', 0.85, { at: ['front'] })];
    expect(at('front', front, null)).toBe(0.85);
    expect(at('LF', front, null)).toBe(0.85);
    expect(at('rear', front, null)).toBe(0.01);
  });

  it('has an instance for each fitted corner or axle', () => {
    const ids = (per: 'corner' | 'axle' | 'vehicle') =>
      groupInstances([group('out', { per })], ['LR', 'RR']).map(({ id, base, place }) => [id, base, place]);
    expect(ids('corner')).toEqual([
      ['g.LR', 'g', 'LR'],
      ['g.RR', 'g', 'RR'],
    ]);
    expect(ids('axle')).toEqual([['g.rear', 'g', 'rear']]);
    expect(ids('vehicle')).toEqual([['g', 'g', null]]);
  });
});

describe('slips', () => {
  it('leave two in a hundred to chance', () => {
    expect(withSlips(1, 0.5)).toBeCloseTo(0.99, 12);
    expect(withSlips(0, 0.5)).toBeCloseTo(0.01, 12);
    expect(withSlips(0.3, 0.3)).toBeCloseTo(0.3, 12);
  });
});

describe('a group that says how often it shows something by chance', () => {
  const shown = (byChance: number | null, signs: readonly Sign[] = [], space: SpaceName = 'out') =>
    valueChances(group(space, { byChance }), hypothesis(signs));
  /** Likelihoods of one sure value: of a suspect without a sign, and of one with signs. */
  const row = (byChance: number | null, value: string, signs: readonly Sign[]): readonly number[] => {
    const one = group('out', { byChance });
    const chances = chancesUnder(one, [hypothesis([]), hypothesis(signs)]);
    return groupRow(one, new Map([[value, 1]]), false, chances);
  };

  it('shows it so often of a suspect that says nothing of it, over all its values together', () => {
    expect(Object.fromEntries(shown(0.3))).toEqual({ within: 0.7, out: 0.3 });
    expect(Object.fromEntries(shown(0.002))).toEqual({ within: 0.998, out: 0.002 });
    const { within, low, high } = Object.fromEntries(shown(0.3, [], 'sides'));
    expect([within, low, high]).toEqual([0.7, 0.15, 0.15]);
  });

  it('shows a suspect what is not said of it as often, too, but never less than never', () => {
    const unsaid = (byChance: number | null) => shown(byChance, [sign('LF', 0.4)], 'corners').get('RR');
    expect(unsaid(0.4)).toBeCloseTo(0.08, 12);
    expect(unsaid(0.05)).toBe(strengths.never);
    expect(unsaid(null)).toBe(strengths.never);
  });

  it('is slipped into no more often than that; any other group at every value alike', () => {
    // Of a suspect that shows nothing: 98 % by chance, 2 % by a slip.
    expect(row(null, 'out', [])[0]).toBeCloseTo(0.98 * 0.01 + 0.02 * 0.5, 12);
    expect(row(0.002, 'out', [])[0]).toBeCloseTo(0.002, 12);
    expect(row(0.3, 'out', [])[0]).toBeCloseTo(0.3, 12);
    expect(row(0.3, 'within', [])[0]).toBeCloseTo(0.7, 12);
  });

  it('makes a code tell more for the suspect that sets it than a reading would', () => {
    const ratio = (byChance: number | null): number => {
      const [none = 1, often = 0] = row(byChance, 'out', [sign('out', 0.65)]);
      return often / none;
    };
    expect(ratio(0.002)).toBeGreaterThan(300);
    expect(ratio(null)).toBeLessThan(40);
    expect(ratio(0.3)).toBeLessThan(2.5);
  });

  it('is as sure to show nothing as the pack says, and no less sure for what drivers say by chance', () => {
    expect(row(null, 'within', [])[0]).toBeCloseTo(0.98 * 0.99 + 0.02 * 0.5, 12);
    expect(row(0.002, 'within', [])[0]).toBeCloseTo(0.998, 12);
    expect(row(0.3, 'out', [sign('out', 0.85)])[1]).toBeCloseTo(0.98 * 0.85 + 0.02 * 0.3, 12);
  });

  it('holds what leaves several values open below what a good vehicle shows', () => {
    const one = group('corners');
    const everywhere = new Map(one.values.slice(1).map((value) => [value, 1]));
    const chances = chancesUnder(one, [hypothesis([sign('LF', 0.97)])]);
    expect(chances[0]?.slice(1).reduce((sum, p) => sum + p, 0)).toBeGreaterThan(1);
    expect(groupRow(one, everywhere, false, chances)[0]).toBeCloseTo(0.98 * 0.99 + 0.02 * (5 / 6), 12);
  });

  it('has the same in its table as in the row of what was read beyond doubt', () => {
    for (const byChance of [null, 0.002, 0.3]) {
      const one = group('out', { byChance });
      const chances = chancesUnder(one, [hypothesis([]), hypothesis([sign('out', 0.65)])]);
      const rows = one.values.map((value) => groupRow(one, new Map([[value, 1]]), false, chances));
      expect(groupTable(one, chances)).toEqual(rows);
    }
  });
});

describe('spaces', () => {
  it.each(Object.keys(spaces) as SpaceName[])('%s begins with what a good vehicle shows', (space) => {
    expect(['within', 'none']).toContain(neutralOf({ values: spaces[space] }));
  });

  const turned = (value: string, space: SpaceName): string[] => [
    ...inSpace(new Map([[value, 1]]), spaces[space]).keys(),
  ];

  it('translate what another kind of source says', () => {
    expect(turned('within', 'pattern')).toEqual(['none']);
    expect(turned('none', 'out')).toEqual(['within']);
    expect(turned('low', 'out')).toEqual(['out']);
    expect(turned('out', 'sides')).toEqual(['low', 'high']);
    expect(turned('out', 'corners')).toEqual(['LF', 'RF', 'LR', 'RR', 'several']);
    expect(turned('LR', 'pattern')).toEqual(['LR', 'spring-LR']);
    expect(turned('spring-LR', 'corners')).toEqual(['LR']);
    expect(turned('several', 'pattern')).toEqual(['electrical-together', 'body-together', 'side', 'axle']);
    expect(turned('axle', 'corners')).toEqual(['several']);
    expect(turned('LR', 'sides')).toEqual(['low', 'high']);
  });

  it('add up what another space joins', () => {
    const joined = inSpace(
      new Map([
        ['side', 0.3],
        ['axle', 0.2],
        ['none', 0.5],
      ]),
      spaces.corners,
    );
    expect(Object.fromEntries(joined)).toEqual({ none: 0.5, several: 0.5 });
  });
});

describe('hypotheses', () => {
  const vehicle = { layout: 'rear-air-assist', fitted: ['LR', 'RR'] } as const;

  it('have priors that sum to 1, with its share for something else', () => {
    const all = hypothesesOf(
      [suspect([], { id: 'a', prior: 3 }), suspect([], { id: 'b', per: 'corner' })],
      vehicle,
      0.1,
    );
    expect(all.map(({ id }) => id)).toEqual(['a', 'b.LR', 'b.RR', 'something-else']);
    for (const [index, p] of [0.54, 0.18, 0.18, 0.1].entries()) expect(all[index]?.prior).toBeCloseTo(p, 12);
  });

  it('are none where the vehicle has none of the suspects', () => {
    expect(hypothesesOf([suspect([], { layouts: ['four-corner-air'] })], vehicle, 0.1)).toEqual([]);
  });

  it('have a mean by their priors that leaves something else out', () => {
    const all = hypothesesOf([suspect([], { id: 'a', prior: 3 }), suspect([], { id: 'b' })], vehicle, 0.1);
    expect(meanOverListed(all, [0.8, 0.4, 99])).toBeCloseTo(0.7, 12);
  });
});

describe('a closer look at readings that have counted', () => {
  const pack = (refines: string) => `${benchChecks}
suspects-basis: {kind: from-memory}
evidence:
  - {id: corners, title: Corners, sources: [{corners: [bench/signal]}]}
  - {id: closer, title: Closer, ${refines} sources: [{corners: [bench/signal]}]}
suspects:
  - id: sensor
    title: sensor
    per: corner
    prior: 1
    wrong-part: {amount: 0, minutes: 0}
    expects: [{group: corners, shows: corner, how: usually}, {group: closer, shows: corner, how: often}]
  - id: wire
    title: wire
    per: corner
    prior: 1
    wrong-part: {amount: 0, minutes: 0}
    expects: [{group: corners, shows: corner, how: usually}, {group: closer, shows: corner, how: rarely}]
  - {id: battery, title: battery, prior: 4, wrong-part: {amount: 0, minutes: 0}}
`;
  const p = (refines: string, id: string): number =>
    rank(keyOn(`{${signals({ LR: '0.50 V' })}}`), pack(refines)).suspects.find((one) => one.id === id)
      ?.probability ?? 0;

  it('tells apart those that it is about, and moves the rest no more than their mean', () => {
    const twice = p('', 'sensor.LR') / p('', 'battery');
    const once = p('refines: true,', 'sensor.LR') / p('refines: true,', 'battery');
    expect(p('refines: true,', 'sensor.LR') / p('refines: true,', 'wire.LR')).toBeCloseTo(
      p('', 'sensor.LR') / p('', 'wire.LR'),
      9,
    );
    expect(once).toBeLessThan(twice / 2);
  });
});
