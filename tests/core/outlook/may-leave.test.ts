import { describe, expect, it } from 'vitest';
import { mayLeave } from '../../../src/core/outlook/may-leave.ts';
import { judge, keyOn } from '../../support/judge.ts';

const checks = `checks:
  - id: rails
    kind: range
    title: Signal clear of both rails
    of: position
    in: [key-on]
    tiers: [{weight: hold, between: [0.25 V, 4.75 V]}]
    basis: {kind: common-practice}
`;

const release = `hold-points:
  - {id: release, title: Release, clear-when: {all: [{no-finding: {weight: hold}}, {steps: {except: [none]}}]}}
`;

const steps = `steps:
  - id: road-test
    title: Road test
    answered-by: [{did: drove}]
    minutes: 20
`;

const good = keyOn('{position: {LF: 2.48 V, RF: 2.5 V, LR: 2.5 V, RR: 2.5 V}}');
const bad = keyOn('{position: {LF: 0.10 V, RF: 2.5 V, LR: 2.5 V, RR: 2.5 V}}');

const pack = (...parts: readonly string[]): string => [checks, ...parts].join('');

describe('whether a vehicle may leave', () => {
  it('says so where the release is clear', () => {
    expect(mayLeave(judge(pack(release), good))).toEqual({
      verdict: 'may-leave',
      since: null,
      closed: false,
      declined: [],
    });
  });

  it('names what the customer did not want repaired', () => {
    const log = 'log: [{at: 2026-03-02T10:00, did: declined, what: link, by: customer}]\n';
    expect(mayLeave(judge(pack(release), good + log))).toMatchObject({
      verdict: 'may-leave',
      declined: ['link'],
    });
  });

  it('says since when it is released', () => {
    const log = 'log: [{at: 2026-03-02T10:00, did: released, what: vehicle, by: technician}]\n';
    const { verdict, since } = mayLeave(judge(pack(release), good + log)) as {
      verdict: string;
      since: number;
    };
    expect({ verdict, since }).toEqual({ verdict: 'may-leave', since: Date.UTC(2026, 2, 2, 10) });
  });

  it('is held by what is out before the steps', () => {
    const leave = mayLeave(judge(pack(release, steps), bad));
    expect(leave).toMatchObject({
      verdict: 'do-not-release',
      because: { of: 'findings', findings: [{ title: 'Signal clear of both rails', subject: 'LF' }] },
    });
  });

  it('counts the steps where nothing else holds it', () => {
    expect(mayLeave(judge(pack(release, steps), good))).toEqual({
      verdict: 'do-not-release',
      because: { of: 'steps', count: 1 },
    });
  });

  it('does not release what is out at hold, though no pack has a release', () => {
    expect(mayLeave(judge(pack(), bad)).verdict).toBe('do-not-release');
    expect(mayLeave(judge(pack(), good)).verdict).toBe('not-judged');
  });

  it('does not let a body on its stops be driven', () => {
    const onStops = good.replace('    readings:', '    conditions: {on-stops: "yes"}\n    readings:');
    expect(mayLeave(judge(pack(release), onStops))).toMatchObject({
      verdict: 'do-not-drive',
      because: [{ id: 'on-stops' }],
    });
  });
});
