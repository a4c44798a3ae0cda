import { describe, expect, it } from 'vitest';
import { preparePacks } from '../../../src/core/prepare/prepared-packs.ts';
import { coverage, type Expectation, type Proof, runProof } from '../../../src/core/proofs/prove.ts';
import { evening, instant, jobOf, keyOn, packOf } from '../../support/judge.ts';

const pack = packOf(`checks:
  - {id: supply, kind: range, title: Supply, of: supply, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, at-least: 11.8 V}]}
  - {id: rails, kind: range, title: Rails, of: position, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: hold, at-least: 0.25 V}]}
steps: [{id: verify, title: Verify, minutes: 10}]
hold-points: [{id: release, title: Release, clear-when: {step: verify}}]`);

const proof = (expect: readonly Expectation[]): Proof => ({
  says: null,
  line: 1,
  job: jobOf(keyOn('{supply: 11.00 V}'), [pack]),
  prepared: preparePacks([pack]),
  asOf: instant(evening),
  expect,
});
const check = (value: string, subject = 'supply', name = 'bench/supply'): Expectation => ({
  about: 'check',
  name,
  subject,
  value,
});
const found = (expectation: Expectation): string | null =>
  runProof(proof([expectation])).failures[0]?.found ?? null;

describe('a proof', () => {
  it('holds where the check says what it expects, with or without the weight', () => {
    expect(found(check('out look'))).toBeNull();
    expect(found(check('out'))).toBeNull();
  });

  it('fails on another verdict or weight, and says what was found', () => {
    expect(found(check('within'))).toBe('out look');
    expect(found(check('out hold'))).toBe('out look');
    expect(found(check('out', 'battery'))).toBe('absent');
  });

  it('may expect steps and hold points', () => {
    expect(found({ about: 'step', name: 'verify', subject: '', value: 'ready' })).toBeNull();
    expect(found({ about: 'step', name: 'verify', subject: '', value: 'done' })).toBe('ready');
    expect(found({ about: 'hold-point', name: 'release', subject: '', value: 'not-clear' })).toBeNull();
    expect(found({ about: 'hold-point', name: 'release', subject: '', value: 'clear' })).toBe('not-clear');
    expect(found({ about: 'hold-point', name: 'program', subject: '', value: 'clear' })).toBe('absent');
  });
});

describe('coverage', () => {
  it('wants a proof that fires and one that stays silent, check by check', () => {
    expect(
      coverage(pack, [proof([check('out look')]), proof([check('within', 'LF', 'bench/rails')])]),
    ).toEqual([
      { check: 'bench/supply', fires: true, silent: false },
      { check: 'bench/rails', fires: false, silent: true },
    ]);
  });

  it('does not take a reading that is missing for silence', () => {
    expect(coverage(pack, [proof([check('not-taken')])])[0]).toMatchObject({ fires: false, silent: false });
  });
});
