import { describe, expect, it } from 'vitest';
import { inSpace } from '../../../src/core/suspects/spaces.ts';
import { packOf } from '../../support/judge.ts';

const entries = (weights: Readonly<Record<string, number>>, space: Parameters<typeof inSpace>[1]) =>
  Object.fromEntries(inSpace(new Map(Object.entries(weights)), space));

describe('a pattern as over one spring', () => {
  const seen = { none: 0.1, LR: 0.3, 'spring-LR': 0.5, side: 0.1 };

  it('is itself in a space that has it', () => {
    expect(entries(seen, 'pattern')).toEqual(seen);
  });

  it('is its corner in a space that has no springs: the likelier of both, in whatever order', () => {
    expect(entries(seen, 'corner-pattern')).toEqual({ none: 0.1, LR: 0.5, side: 0.1 });
    expect(entries({ 'spring-LR': 0.3, LR: 0.5 }, 'corner-pattern')).toEqual({ LR: 0.5 });
    expect(entries(seen, 'corners')).toEqual({ none: 0.1, LR: 0.5, several: 0.1 });
  });

  it('tells nothing of a corner where it could be any', () => {
    const any = { 'spring-LF': 0.1, 'spring-RF': 0.1, 'spring-LR': 0.1, 'spring-RR': 0.1 };
    const rest = { none: 0.2, LF: 0.05, RF: 0.05, LR: 0.05, RR: 0.05, side: 0.2 };
    const without = Object.fromEntries(
      Object.entries(rest).map(([value, weight]) => [value, expect.closeTo(weight / 0.6, 12)]),
    );
    expect(entries({ ...rest, ...any }, 'corner-pattern')).toEqual(without);
    expect(entries({ ...rest, ...any }, 'pattern')).toEqual({ ...rest, ...any });
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

describe('a group with the values of a pattern', () => {
  const spaceOf = (shows: string) =>
    packOf(`suspects-basis: {kind: from-memory}
checks:
  - {id: pattern, kind: pattern, title: Pattern, of: position, in: [key-on], reference: 5 V, expected: 2.5 V, spread: 0.6 V, weight: look, basis: {kind: from-memory}}
evidence:
  - {id: body, title: Body, values: pattern, sources: [{finding: bench/pattern}]}
suspects:
  - {id: leak, per: corner, title: Leak, component: air-spring, prior: 1, wrong-part: {amount: 1, minutes: 1}, expects: [{group: body, shows: ${shows}, how: usually}]}`)
      .evidence[0]?.space;

  it('tells springs only where one of its signs does', () => {
    expect(spaceOf('spring-LF')).toBe('pattern');
    expect(spaceOf('corner')).toBe('corner-pattern');
  });
});
