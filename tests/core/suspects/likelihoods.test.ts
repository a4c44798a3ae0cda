import { describe, expect, it } from 'vitest';
import { valueChances } from '../../../src/core/suspects/group-row.ts';
import { type Hypothesis, hypothesesOf, meanOverListed } from '../../../src/core/suspects/hypotheses.ts';
import type { EvidenceGroup, Sign, Suspect } from '../../../src/core/suspects/model.ts';
import { inSpace, neutralOf, type SpaceName, spaces } from '../../../src/core/suspects/spaces.ts';
import { strengths, withSlips } from '../../../src/core/suspects/strengths.ts';
import { keyOn } from '../../support/judge.ts';
import { benchChecks, rank, signals } from './bench-pack.ts';

const group = (space: SpaceName): EvidenceGroup => ({
  id: 'g',
  title: 'Group',
  space,
  sources: [],
  levelled: false,
  refines: false,
});

const suspect = (expects: readonly Sign[], more: Partial<Suspect> = {}): Suspect => ({
  id: 's',
  perCorner: false,
  title: 'suspect',
  layouts: null,
  prior: 1,
  wrongPart: { amount: 0, minutes: 0 },
  confirm: [],
  component: 's',
  isPart: true,
  expects,
  ...more,
});

const hypothesis = (expects: readonly Sign[], corner: Hypothesis['corner'] = null): Hypothesis => ({
  id: 's',
  title: 'suspect',
  corner,
  suspect: suspect(expects),
  prior: 1,
});

const chances = (
  space: SpaceName,
  signs: readonly Omit<Sign, 'group'>[],
  corner: Hypothesis['corner'] = null,
) =>
  Object.fromEntries(
    valueChances(
      group(space),
      hypothesis(
        signs.map((sign) => ({ ...sign, group: 'g' })),
        corner,
      ),
    ),
  );

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
    const { within, low, high } = chances('sides', [{ shows: 'low', how: 0.85 }]);
    expect(low).toBe(0.85);
    expect(within).toBeCloseTo(0.13, 12);
    expect(high).toBe(0.02);
  });

  it('is what a good vehicle shows where nothing is said', () => {
    expect(chances('out', [])).toEqual({ within: 0.98, out: 0.02 });
    expect(Object.values(chances('pattern', [])).slice(1)).toEqual(Array(12).fill(0.02));
    expect(Object.values(chances('corner-pattern', [])).slice(1)).toEqual(Array(8).fill(0.02));
  });

  it('never goes beyond 0.02 and 0.98', () => {
    expect(chances('out', [{ shows: 'out', how: 1 }])).toEqual({ within: 0.02, out: 0.98 });
    expect(chances('out', [{ shows: 'out', how: 0 }])).toEqual({ within: 0.98, out: 0.02 });
  });

  it('may be said of several values, and of the good one', () => {
    const said = chances('sides', [
      { shows: 'low', how: 0.5 },
      { shows: 'high', how: 0.4 },
    ]);
    expect(said.within).toBeCloseTo(0.1, 12);
    const good = chances('sides', [{ shows: 'within', how: 0.6 }]);
    expect(good.low).toBeCloseTo(0.2, 12);
    expect(good.high).toBeCloseTo(0.2, 12);
  });

  it('is shared where the direction is left open', () => {
    expect(chances('sides', [{ shows: 'out', how: 0.8 }])).toMatchObject({ low: 0.4, high: 0.4 });
  });

  it('is of its own corner where the suspect has one', () => {
    expect(chances('corners', [{ shows: 'corner', how: 0.85 }], 'LR')).toMatchObject({ LR: 0.85, LF: 0.02 });
  });
});

describe('slips', () => {
  it('leave two in a hundred to chance', () => {
    expect(withSlips(1, 0.5)).toBeCloseTo(0.99, 12);
    expect(withSlips(0, 0.5)).toBeCloseTo(0.01, 12);
    expect(withSlips(0.3, 0.3)).toBeCloseTo(0.3, 12);
  });
});

describe('spaces', () => {
  it.each(Object.keys(spaces) as SpaceName[])('%s begins with what a good vehicle shows', (space) => {
    expect(['within', 'none']).toContain(neutralOf(space));
  });

  const turned = (value: string, space: SpaceName): string[] => [
    ...inSpace(new Map([[value, 1]]), space).keys(),
  ];

  it('translate what another kind of source says', () => {
    expect(turned('within', 'pattern')).toEqual(['none']);
    expect(turned('none', 'out')).toEqual(['within']);
    expect(turned('low', 'out')).toEqual(['out']);
    expect(turned('out', 'sides')).toEqual(['low', 'high']);
    expect(turned('out', 'corners')).toEqual(['LF', 'RF', 'LR', 'RR', 'several']);
    expect(turned('LR', 'pattern')).toEqual(['LR', 'spring-LR']);
    expect(turned('LR', 'corner-pattern')).toEqual(['LR']);
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
      'corners',
    );
    expect(Object.fromEntries(joined)).toEqual({ none: 0.5, several: 0.5 });
  });
});

describe('hypotheses', () => {
  const vehicle = { layout: 'rear-air-assist', fitted: ['LR', 'RR'] } as const;

  it('have priors that sum to 1, with its share for something else', () => {
    const all = hypothesesOf(
      [suspect([], { id: 'a', prior: 3 }), suspect([], { id: 'b', perCorner: true })],
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
