import { describe, expect, it } from 'vitest';
import type { PatternRemark, StanceRemark, WireRemark } from '../../../src/core/finding.ts';
import type { CornerSignal } from '../../../src/core/readings/corner-patterns.ts';
import {
  patternShares,
  patternWords,
  stanceWords,
  wireWords,
} from '../../../src/report/words/pattern-words.ts';

const units = { pressureUnit: null, temperatureUnit: null };

/** Signals that nothing was fitted to. */
const signal: CornerSignal = { value: 2.5, expected: 2.5, spread: 0.6, sense: 1 };
const unfitted = { fits: [], signals: { LF: signal, RF: signal, LR: signal, RR: signal }, reference: 5 };

const pattern: PatternRemark = {
  kind: 'pattern',
  family: 'corner',
  where: 'LR',
  model: 'corner',
  amount: -1.382,
  sure: 'strong',
  next: 'side',
  lead: 7.2,
  weights: {
    none: 0.004,
    'electrical-together': 0.016,
    'body-together': 0,
    corner: 0.93,
    spring: 0,
    side: 0.05,
    axle: 0,
  },
  ...unfitted,
};

describe('a pattern in words', () => {
  it('names the pattern and how sure it is, and nothing else', () => {
    expect(patternWords(pattern)).toBe('one corner alone, LR 1.38 V low; strong evidence over one side');
  });

  it('has the shares that are worth naming apart', () => {
    expect(patternShares(pattern)).toBe('one corner 93 %, one side 5 %, all four electrically 2 %');
    expect(patternShares({ ...pattern, family: 'none' })).toBe('');
  });

  it.each<[Partial<PatternRemark>, string]>([
    [{ model: 'spring', where: 'RR', amount: -0.8 }, 'the body as over one spring, RR 0.80 V low'],
    [{ model: 'side', where: 'left', amount: 0.8 }, 'one side, the left 0.80 V high'],
    [{ model: 'axle', where: 'rear', amount: -0.8 }, 'one axle, the rear 0.80 V low'],
    [{ model: 'body', where: null, amount: -0.8 }, 'the whole body, 0.80 V low'],
    [
      { model: 'scaled', where: null, amount: -0.12 },
      'all four signals at 88 % of what they should be, as by one electrical cause',
    ],
    [
      { model: 'raised', where: null, amount: 1.2 },
      'all four signals raised, most where they are low (1.20 V at zero), as by a lifted sensor ground',
    ],
    [
      { model: 'raised', where: null, amount: -1.2 },
      'all four signals lowered, most where they are low (1.20 V at zero), as by one electrical cause',
    ],
  ])('%j: %s', (part, words) => {
    expect(patternWords({ ...pattern, ...part }).split('; ')[0]).toBe(words);
  });

  it('says what it cannot be told from', () => {
    expect(patternWords({ ...pattern, sure: 'cannot-tell' })).toContain('; cannot be told from one side');
    expect(patternWords({ ...pattern, sure: 'cannot-tell', next: 'none' })).toContain(
      '; cannot be told from no pattern',
    );
  });

  it('says no more where there is none', () => {
    const none = { family: 'none', model: 'none', where: null, sure: 'cannot-tell' } as const;
    expect(patternWords({ ...pattern, ...none })).toBe('the four make no pattern');
  });
});

describe('a stance in words', () => {
  const stance: StanceRemark = {
    kind: 'stance',
    by: 'tape',
    height: 750.4,
    leftUp: -12,
    noseUp: -4,
    expanded: { leftUp: 0.6, noseUp: 0.6 },
  };

  it.each<[Partial<StanceRemark>, string]>([
    [{}, 'by tape the body stands 750 mm high on average, leans to the left by 12 mm, nose down by 4 mm'],
    [
      { by: 'sensors', leftUp: 12, noseUp: 4 },
      'by its sensors the body stands 750 mm high on average, leans to the right by 12 mm, nose up by 4 mm',
    ],
    [
      { leftUp: 0.5, noseUp: -0.6 },
      'by tape the body stands 750 mm high on average, level from side to side, level from front to rear',
    ],
  ])('%j', (part, words) => {
    expect(stanceWords({ ...stance, ...part })).toBe(words);
  });
});

describe('a wire in words', () => {
  const wire: WireRemark = {
    kind: 'wire',
    copper: 0.4061,
    current: 4,
    celsius: 20,
    leaves: 0.12,
    expanded: 0.03,
  };

  it.each<[Partial<WireRemark>, string]>([
    [{}, 'copper alone drops 0.41 V here at 4 A and 20 °C, which leaves 0.12 V for what is not wire'],
    [{ leaves: 0.02 }, 'copper alone drops 0.41 V here at 4 A and 20 °C, which explains all of it'],
    [{ leaves: -0.03 }, 'copper alone drops 0.41 V here at 4 A and 20 °C, which explains all of it'],
    [
      { leaves: -0.2 },
      'copper alone drops 0.41 V here at 4 A and 20 °C, more than was read: was the load on, and is the wire as stated',
    ],
    [
      { copper: 0.0123, leaves: 0.2 },
      'copper alone drops 0.012 V here at 4 A and 20 °C, which leaves 0.20 V for what is not wire',
    ],
  ])('%j', (part, words) => {
    expect(wireWords({ ...wire, ...part }, units)).toBe(words);
  });

  it('is in the shop’s temperature unit', () => {
    expect(wireWords(wire, { ...units, temperatureUnit: '°F' })).toContain('4 A and 68 °F');
  });
});
