import { describe, expect, it } from 'vitest';
import { answerOf } from '../../../.config/bench/suspects/answers/answers.ts';
import { textOf } from '../../../.config/bench/suspects/fleet.ts';
import { judgeText, readText, shippedPacks } from '../../../.config/bench/suspects/judging.ts';
import { drawFrom } from '../../../.config/bench/suspects/model/draw.ts';
import { drawMember } from '../../../.config/bench/suspects/model/member.ts';
import { judge, leaderBrier } from '../../../.config/bench/suspects/score.ts';
import { keyOf } from '../../../src/core/key.ts';
import type { WeighedSuspects } from '../../../src/core/suspects/weigh.ts';
import { projectRoot } from '../../support/run.ts';
import { benchOf, memberWith } from './support.ts';

/** Weighed suspects as far as scores look at them: singles, and pairs written with a plus. */
const weighed = (chances: readonly (readonly [string, number])[]): WeighedSuspects => {
  const ids = [...new Set(chances.flatMap(([id]) => id.split(' + ')))];
  const worlds = chances.map(([id]) => ({
    id,
    members: id.split(' + ').map((one) => ids.indexOf(one)),
    prior: 1,
  }));
  const shares = ids.map((_, place) =>
    chances.reduce((sum, [, p], world) => sum + (worlds[world]?.members.includes(place) ? p : 0), 0),
  );
  const order = shares.map((_, place) => place).sort((a, b) => (shares[b] ?? 0) - (shares[a] ?? 0));
  const model = { hypotheses: ids.map((id) => ({ id })) };
  return {
    model,
    worlds,
    probabilities: chances.map(([, p]) => p),
    shares,
    order,
  } as unknown as WeighedSuspects;
};

describe('scores', () => {
  const member = memberWith('linkage: off');
  const corner = member.troubles[0]?.spot.corner;

  it('take the parts that make a signal of one corner together', () => {
    const verdict = judge(
      member,
      weighed([
        ['battery', 0.4],
        [`sensor.${corner}`, 0.35],
        [`linkage.${corner}`, 0.25],
      ]),
    );
    expect(verdict).toMatchObject({ seen: true, first: true, leads: false, inThree: true, told: true });
    expect(verdict.leader).toBeCloseTo(0.6, 12);
    expect(verdict.brier).toBeCloseTo(0.4 ** 2 + 0.4 ** 2, 12);
    expect(leaderBrier([verdict])).toBeCloseTo(0.16, 12);
  });

  it('count a wrong leader at the square of what was said of it, and no suspects as not seen', () => {
    const verdict = judge(
      member,
      weighed([
        ['battery', 0.8],
        ['dryer', 0.2],
      ]),
    );
    expect(leaderBrier([verdict])).toBeCloseTo(0.64, 12);
    expect(verdict.brier).toBeCloseTo(0.64 + 0.04, 12);
    expect(judge(member, null).seen).toBe(false);
  });

  it('count a pair for each of its two, once in each class', () => {
    const verdict = judge(
      member,
      weighed([
        [`linkage.${corner} + battery`, 0.7],
        [`sensor.${corner} + linkage.${corner}`, 0.2],
        ['battery', 0.1],
      ]),
    );
    expect(verdict).toMatchObject({ leads: true, named: false });
    expect(verdict.leader).toBeCloseTo(0.9, 12);
    expect(verdict.brier).toBeCloseTo(0.1 ** 2 + 0.8 ** 2, 12);
  });
});

describe('answers to tests', () => {
  it.each([
    ['linkage: off', 'arm-by-hand', 'smooth'],
    ['sensor: dead output', 'arm-by-hand', 'stuck'],
    ['sensor: dead output', 'signal-at-plug-and-pin', 'wrong-at-both'],
    ['sensor: dead output', 'second-meter', 'meters-agree'],
    ['sensor: other hand', 'raise-lower-command', 'moves-signal-wrong-way'],
    ['wiring: signal broken', 'signal-at-plug-and-pin', 'right-at-plug-only'],
    ['wiring: signal broken', 'signal-plug-off', 'stays'],
    ['plugs: crossed', 'unplug-one', 'other-side-drops'],
    ['standing drain', 'standing-current', 'high'],
    ['standing drain', 'battery-load-test', 'passes'],
    ['battery: dead cell', 'battery-load-test', 'fails'],
    ['meter: off', 'second-meter', 'meters-differ'],
    ['learn: never ran', 'reference-at-plug', 'in-range'],
    ['levelling: mode left on', 'raise-lower-command', 'does-not-move'],
    ['exhaust valve: does not close', 'exhaust-port', 'air-escapes'],
    ['pressure sensor: off', 'gauge-at-tank', 'differs'],
    ['damper: coil', 'battery-load-test', 'passes'],
  ])('%s: %s finds %s', (fault, test, found) => {
    const member = memberWith(fault);
    const spot = member.troubles[0]?.spot;
    const places: Readonly<Record<string, string | undefined>> = {
      'arm-by-hand': spot?.corner,
      'signal-at-plug-and-pin': spot?.corner,
      'signal-plug-off': spot?.corner,
      'reference-at-plug': spot?.corner,
      'unplug-one': spot?.axle,
    };
    expect(answerOf(keyOf(test, (places[test] as never) ?? null), benchOf(member))).toBe(found);
  });

  it('are outcomes that the shipped packs know, for every test that they offer', async () => {
    const packs = await shippedPacks(projectRoot);
    const bench = benchOf(memberWith('air spring: leaks'));
    for (const { id, per, outcomes, how } of packs.tests) {
      if (!how.some((one) => one.length > 0)) continue;
      const place = per === 'corner' ? 'LR' : per === 'axle' ? 'rear' : null;
      expect(outcomes.map((one) => one.id)).toContain(answerOf(keyOf(id, place), bench));
    }
  });

  it('are of an eye that sees a fault only where it is', () => {
    const member = memberWith('linkage: off');
    const corner = member.troubles[0]?.spot.corner;
    expect(answerOf(`inspected linkage.${corner}`, benchOf(member))).toBe('fault-seen');
    expect(answerOf(`inspected sensor.${corner}`, benchOf(member))).toBe('nothing-seen');
  });

  it('stop at a test that nobody simulated', () => {
    expect(() => answerOf('ask-around', benchOf(memberWith('linkage: off')))).toThrow('ask-around');
  });
});

describe('a job of the fleet', () => {
  it('is read without a mistake, and is the same for the same seed', async () => {
    const packs = await shippedPacks(projectRoot);
    for (let number = 0; number < 12; number += 1) {
      const text = textOf(3, number, 'full sheet');
      expect(textOf(3, number, 'full sheet')).toBe(text);
      expect(readText(text, packs).snapshots.length).toBeGreaterThan(4);
      const { findings } = judgeText(text, packs);
      const healthy = drawMember(number, drawFrom(3, 4 * number)).troubles.length === 0;
      const out = findings.filter(
        ({ verdict, weight, current }) => verdict === 'out' && weight !== 'note' && current,
      );
      if (healthy) expect(out).toEqual([]);
    }
  });

  it('names every fault in its suspects', async () => {
    const packs = await shippedPacks(projectRoot);
    const known = packs.packs.flatMap(({ suspects }) => suspects.map(({ id }) => id));
    for (let number = 0; number < 200; number += 1)
      for (const { fault } of drawMember(number, drawFrom(2, number)).troubles)
        expect(known).toContain(fault.suspect);
  });
});
