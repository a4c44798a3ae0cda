import { describe, expect, it } from 'vitest';
import { judge } from '../../support/judge.ts';

const pack = `checks:
  - {id: rails, kind: range, title: Rails, of: position, in: [key-on], needs: {load: empty}, unless: {maintainer: on}, basis: {kind: from-memory}, tiers: [{weight: hold, between: [0.25 V, 4.75 V]}]}
  - id: axle
    kind: left-right
    title: Axle
    of: position
    in: [key-on]
    basis: {kind: from-memory}
    tiers: [{weight: look, between: [-0.5 V, 0.5 V]}]`;

const shot = (time: string, readings: string, conditions = 'load: empty'): string =>
  `  - {id: at-${time.replace(':', '')}, at: 2026-03-02T${time}, state: key-on, conditions: {${conditions}}, readings: {position: {${readings}}}}`;

/** What the rails say of the left front, newest judgement and not-taken together. */
const of = (check: string, subject: string, ...shots: string[]) =>
  judge(pack, `snapshots:\n${shots.join('\n')}`)
    .findings.filter((one) => one.check === `bench/${check}` && one.subject === subject)
    .map(({ snapshot, verdict, current, missing }) => ({ snapshot, verdict, current, why: missing?.why }));

const rails = (...shots: string[]) => of('rails', 'LF', ...shots);

describe('a newer reading that cannot be judged', () => {
  it.each([
    ['{why: plug seized}', 'load: empty', 'could-not-be-taken'],
    ['2.5 V', 'air: 8 °C', 'condition-not-stated'],
    ['2.5 V', 'load: loaded', 'condition-differs'],
  ])('%s with %s takes the word from an older good one', (reading, conditions, why) => {
    expect(rails(shot('09:00', 'LF: 2.5 V'), shot('10:00', `LF: ${reading}`, conditions))).toEqual([
      { snapshot: 'at-0900', verdict: 'within', current: false, why: undefined },
      { snapshot: null, verdict: 'not-taken', current: true, why },
    ]);
  });

  it('a signal that jumps takes it from a pair', () => {
    const before = shot('09:00', 'LF: 2.5 V, RF: 2.5 V');
    const now = shot('10:00', 'LF: {low: 0.5 V, high: 4.4 V}, RF: 2.5 V');
    expect(of('axle', 'front', before, now)).toEqual([
      { snapshot: 'at-0900', verdict: 'within', current: false, why: undefined },
      { snapshot: null, verdict: 'not-taken', current: true, why: 'jumping' },
    ]);
  });

  it('leaves an older out standing, since nothing retook it', () => {
    expect(rails(shot('09:00', 'LF: 0.1 V'), shot('10:00', 'LF: {why: plug seized}'))).toEqual([
      { snapshot: 'at-0900', verdict: 'out', current: true, why: undefined },
    ]);
  });

  it('leaves an older good one standing where it was not meant for this check', () => {
    const programming = shot('10:00', 'LF: 2.5 V', 'load: empty, maintainer: on');
    expect(rails(shot('09:00', 'LF: 2.5 V'), programming)).toEqual([
      { snapshot: 'at-0900', verdict: 'within', current: true, why: undefined },
    ]);
  });

  it('leaves an older good one standing where it lacks the reading', () => {
    expect(rails(shot('09:00', 'LF: 2.5 V'), shot('10:00', 'RF: 2.5 V'))).toEqual([
      { snapshot: 'at-0900', verdict: 'within', current: true, why: undefined },
    ]);
  });

  it('has no say over what was out before the good one', () => {
    const shots = [shot('08:00', 'LF: 0.1 V'), shot('09:00', 'LF: 2.5 V'), shot('10:00', 'LF: {why: x}')];
    expect(rails(...shots).map(({ verdict, current }) => [verdict, current])).toEqual([
      ['out', false],
      ['within', false],
      ['not-taken', true],
    ]);
  });
});
