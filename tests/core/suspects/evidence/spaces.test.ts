import { describe, expect, it } from 'vitest';
import { inSpace, spaces } from '../../../../src/core/suspects/evidence/spaces.ts';
import { packOf } from '../../../support/judge.ts';

const entries = (weights: Readonly<Record<string, number>>, space: keyof typeof spaces) =>
  Object.fromEntries(inSpace(new Map(Object.entries(weights)), spaces[space]));

const exactly = (weights: Readonly<Record<string, number>>, space: keyof typeof spaces) =>
  Object.fromEntries(inSpace(new Map(Object.entries(weights)), spaces[space], true));

describe('a pattern as over one spring', () => {
  const seen = { none: 0.1, LR: 0.3, 'spring-LR': 0.5, side: 0.1 };

  it('is itself where the pattern was judged with springs', () => {
    expect(exactly(seen, 'pattern')).toEqual(seen);
  });

  it('is its corner in a space that has no springs: both ways of being off there add up, in whatever order', () => {
    expect(exactly(seen, 'corners')).toEqual({ none: 0.1, LR: 0.8, several: 0.1 });
    expect(exactly({ 'spring-LR': 0.3, LR: 0.5 }, 'corners')).toEqual({ LR: 0.8 });
  });

  it('tells nothing of a corner where it could be any', () => {
    const any = { 'spring-LF': 0.1, 'spring-RF': 0.1, 'spring-LR': 0.1, 'spring-RR': 0.1 };
    const found = exactly({ none: 0.2, ...any, side: 0.2 }, 'corners');
    expect(found).toEqual({ none: 0.2, LF: 0.1, RF: 0.1, LR: 0.1, RR: 0.1, several: 0.2 });
  });

  it('is something out where no corner is told', () => {
    expect(entries({ none: 0.2, 'spring-LR': 0.6 }, 'out')).toEqual({ within: 0.2, out: 0.6 });
  });

  it('is as likely as the corner alone where only the corner was seen to be off', () => {
    expect(entries({ none: 0.1, LF: 0.8, several: 0.1 }, 'pattern')).toMatchObject({
      LF: 0.8,
      'spring-LF': 0.8,
      side: 0.1,
    });
  });
});

describe('axles', () => {
  it('low or high with no word on where is so of both axles together and of each', () => {
    expect(entries({ within: 0.1, low: 0.9 }, 'axles')).toEqual({
      within: 0.1,
      low: 0.9,
      'low-front': 0.9,
      'low-rear': 0.9,
    });
  });

  it('out with no word on which way is any of them', () => {
    expect(Object.keys(entries({ out: 1 }, 'axles'))).toEqual(spaces.axles.slice(1));
  });
});

describe('what is joined', () => {
  it('never comes to more than certain', () => {
    expect(entries({ side: 0.7, axle: 0.6 }, 'corners')).toEqual({ several: 1 });
  });
});

describe('the values of a group', () => {
  const groupOf = (group: string, shows: string) =>
    packOf(`suspects-basis: {kind: from-memory}
checks:
  - {id: pattern, kind: pattern, title: Pattern, of: position, in: [key-on], reference: 5 V, expected: 2.5 V, spread: 0.6 V, weight: look, basis: {kind: from-memory}}
evidence:
  - {id: body, title: Body, ${group}sources: [{finding: bench/pattern}]}
suspects:
  - {id: leak, per: corner, title: Leak, component: air-spring, prior: 1, wrong-part: {amount: 1, minutes: 1}, expects: [{group: body, shows: ${shows}, how: usually}]}`)
      .evidence[0];

  it('are those of a space that the pack names', () => {
    expect(groupOf('values: pattern, ', 'own-spring')).toMatchObject({
      space: 'pattern',
      values: spaces.pattern,
    });
  });

  it('may be words of the pack, the good one first', () => {
    expect(groupOf('values: [alike, honest, opposed], ', 'opposed')).toMatchObject({
      space: 'words',
      values: ['alike', 'honest', 'opposed'],
    });
  });
});
