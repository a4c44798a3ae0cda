import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { answerOf, type Bench } from '../../../.config/bench/suspects/answers.ts';
import { drawMember, type Member } from '../../../.config/bench/suspects/faults.ts';
import { textOf } from '../../../.config/bench/suspects/fleet.ts';
import { instrumentsFrom } from '../../../.config/bench/suspects/instruments.ts';
import { judgeText, readText, shippedPacks } from '../../../.config/bench/suspects/judging.ts';
import { drawFrom } from '../../../.config/bench/suspects/random.ts';
import { judge, leaderBrier } from '../../../.config/bench/suspects/score.ts';
import type { Ranking } from '../../../src/core/suspects/ranking.ts';
import { projectRoot } from '../../support/run.ts';

const memberWith = (name: string): Member => {
  for (let number = 0; number < 2000; number += 1) {
    const member = drawMember(number, drawFrom(1, number));
    if (member.fault?.name === name && member.car.layout === 'four-corner-air') return member;
  }
  throw new Error(`nobody in the fleet has ${name}`);
};

const benchOf = (name: string): Bench => ({
  member: memberWith(name),
  by: instrumentsFrom(drawFrom(1, 5)),
  luck: drawFrom(1, 6),
});

const ranking = (chances: readonly (readonly [string, number])[]): Ranking => ({
  suspects: chances.map(([id, probability]) => ({
    id,
    title: id,
    probability,
    for: [],
    against: [],
    component: null,
    isPart: true,
    rival: '',
    ledger: [],
    mode: null,
    wrongPart: null,
    mends: [id],
  })),
  hypotheses: chances.map(([id, probability]) => ({ id, modes: [null], prior: probability, probability })),
  evidence: [],
  pair: null,
  nextTests: [],
  advice: null,
  conflict: [],
  stakes: null,
});

describe('scores', () => {
  const member = memberWith('linkage: off');
  const corner = member.truth?.split('.')[1];

  it('take the parts of one corner together', () => {
    const chances = [
      ['battery', 0.4],
      [`sensor.${corner}`, 0.35],
      [`linkage.${corner}`, 0.25],
    ] as const;
    const verdict = judge(member, ranking(chances));
    expect(verdict).toMatchObject({ seen: true, first: true, leader: 0.6 });
    expect(verdict.brier).toBeCloseTo(0.4 ** 2 + 0.4 ** 2, 12);
    expect(leaderBrier([verdict])).toBeCloseTo(0.16, 12);
  });

  it('count a wrong leader at the square of what was said of it, and no ranking as not seen', () => {
    const verdict = judge(
      member,
      ranking([
        ['battery', 0.8],
        ['dryer', 0.2],
      ]),
    );
    expect(leaderBrier([verdict])).toBeCloseTo(0.64, 12);
    expect(verdict.brier).toBeCloseTo(0.64 + 0.04, 12);
    expect(judge(member, null).seen).toBe(false);
  });
});

describe('answers to tests', () => {
  it.each([
    ['linkage: off', 'arm-by-hand', 'smooth'],
    ['linkage: off', 'arm-angles', 'differ'],
    ['sensor: dead output', 'arm-by-hand', 'stuck'],
    ['sensor: dead output', 'signal-at-plug-and-pin', 'wrong-at-both'],
    ['wiring: signal broken', 'signal-at-plug-and-pin', 'right-at-plug-only'],
    ['standing drain', 'standing-current', 'high'],
    ['standing drain', 'battery-load-test', 'passes'],
    ['battery: dead cell', 'battery-load-test', 'fails'],
    ['learn: never ran', 'reference-at-plug', 'in-range'],
    ['damper: coil', 'battery-load-test', 'passes'],
  ])('%s: %s finds %s', (fault, test, found) => {
    const bench = benchOf(fault);
    const corner = bench.member.truth?.split('.')[1];
    const perCorner = ['arm-by-hand', 'signal-at-plug-and-pin'].includes(test);
    expect(answerOf(perCorner ? `${test}.${corner}` : test, bench)).toBe(found);
  });

  it('are outcomes that the shipped packs know', async () => {
    const packs = await shippedPacks(projectRoot);
    const bench = benchOf('air spring: leaks');
    for (const { id, perCorner, outcomes, how } of packs.tests) {
      if (!how.some((one) => one.length > 0)) continue;
      const found = answerOf(perCorner ? `${id}.LR` : id, bench);
      expect(outcomes.map((one) => one.id)).toContain(found);
    }
  });

  it('stop at a test that nobody simulated', () => {
    expect(() => answerOf('ask-around', benchOf('linkage: off'))).toThrow('ask-around');
  });
});

describe('a job of the fleet', () => {
  it('is read without a mistake, and is the same for the same seed', async () => {
    const packs = await shippedPacks(join(projectRoot));
    for (let number = 0; number < 12; number += 1) {
      const text = textOf(3, number, 'full sheet');
      expect(textOf(3, number, 'full sheet')).toBe(text);
      expect(readText(text, packs).snapshots.length).toBeGreaterThan(4);
      const { findings } = judgeText(text, packs);
      const healthy = drawMember(number, drawFrom(3, 3 * number)).fault === null;
      if (healthy) expect(findings.filter(({ verdict }) => verdict === 'out')).toEqual([]);
    }
  });
});
