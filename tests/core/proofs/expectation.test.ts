import { describe, expect, it } from 'vitest';
import { fits, foundText } from '../../../src/core/proofs/expectation.ts';
import { findingOf, judge, keyOn } from '../../support/judge.ts';
import { supplyCheck } from './bench-pack.ts';

const sheet = judge(supplyCheck('{weight: look, at-least: 11.8 V}'), keyOn('{supply: 11.00 V}'));
const out = findingOf(sheet, 'supply', 'supply');
const word = { ...out, pattern: 'opposed' };

describe('what a proof expects', () => {
  it('is a verdict, and as far as it says so a weight', () => {
    expect(fits(out, 'out')).toBe(true);
    expect(fits(out, 'out look')).toBe(true);
    expect(fits(out, 'out hold')).toBe(false);
    expect(fits(out, 'within')).toBe(false);
  });

  it('is a word of the check where it names one', () => {
    expect(fits(word, 'out look opposed')).toBe(true);
    expect(fits(word, 'out opposed')).toBe(true);
    expect(fits(word, 'out look honest')).toBe(false);
    expect(fits(out, 'out look opposed')).toBe(false);
  });

  it('is a quantity as far as its digits go', () => {
    expect(fits(out, 'out look 11 V')).toBe(true);
    expect(fits(out, 'out 11.4 V')).toBe(false);
    expect(fits(out, 'out 11.00 V')).toBe(true);
    expect(fits(out, 'out 11.01 V')).toBe(false);
    expect(fits(out, 'out 11000 mV')).toBe(true);
    expect(fits(out, 'out 11 psi')).toBe(false);
  });

  it('may be that nothing is found', () => {
    expect(fits(undefined, 'absent')).toBe(true);
    expect(fits(undefined, 'out')).toBe(false);
    expect(fits(out, 'absent')).toBe(false);
  });

  it('is answered by as much as was asked for', () => {
    expect(foundText(out, 'within')).toBe('out look');
    expect(foundText(word, 'out look honest')).toBe('out look opposed');
    expect(foundText(out, 'within 12.5 V')).toBe('out look 11 V');
    expect(foundText(undefined, 'out look')).toBe('absent');
  });
});
