import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Corner, corners } from '../../../src/core/corner.ts';
import {
  type CornerSignals,
  fitPatterns,
  type Pattern,
  patternOf,
} from '../../../src/core/readings/corner-patterns.ts';

type Volts = readonly [LF: number, RF: number, LR: number, RR: number];
type Senses = readonly [1 | -1, 1 | -1, 1 | -1, 1 | -1];

const rising: Senses = [1, 1, 1, 1];
const mixed: Senses = [1, -1, 1, -1];

const signalsOf = (volts: Volts, senses: Senses, expected = 2.5, spread = 0.6): CornerSignals => {
  const at = (index: 0 | 1 | 2 | 3) => ({ value: volts[index], expected, spread, sense: senses[index] });
  return { LF: at(0), RF: at(1), LR: at(2), RR: at(3) };
};

const patternAt = (volts: Volts, senses: Senses, spread = 0.6): Pattern =>
  patternOf(signalsOf(volts, senses, 2.5, spread), 5);

/** The same with one spring among the models. */
const springAt = (volts: Volts, senses: Senses): Pattern =>
  patternOf(signalsOf(volts, senses, 2.5, 0.6), 5, true);

const said = ({ best, sure }: Pattern): string => `${best.name} ${best.place} ${sure}`;

describe('which pattern four corners make', () => {
  it.each<[string, Volts, Senses, string, number]>([
    ['nothing off', [2.48, 2.55, 2.41, 2.6], rising, 'none null cannot-tell', 0],
    ['one corner low', [2.5, 2.5, 0.4, 2.5], rising, 'corner LR positive', -2.1],
    ['a falling sensor low is a corner high', [2.5, 0.4, 2.5, 2.5], mixed, 'corner RF positive', 2.1],
    ['the left down', [1.3, 2.5, 1.3, 2.5], rising, 'side left positive', -1.2],
    ['the left down, sensors mixed', [1.3, 2.5, 1.3, 2.5], mixed, 'side left positive', -1.2],
    ['the rear up', [2.5, 2.5, 3.8, 1.2], mixed, 'axle rear positive', 1.3],
    ['the rear far up', [2.5, 2.5, 4.6, 0.4], mixed, 'axle rear very-strong', 2.1],
    ['the body down', [1.2, 3.8, 1.2, 3.8], mixed, 'body null strong', -1.3],
    ['all volts down', [1.5, 1.5, 1.5, 1.5], mixed, 'scaled null positive', -0.4],
  ])('%s', (_, volts, senses, expected, amount) => {
    const found = patternAt(volts, senses);
    expect(said(found)).toBe(expected);
    expect(found.best.amount).toBeCloseTo(amount, 9);
  });

  it('knows one spring by its corner, most off, where springs are asked for', () => {
    const found = springAt([3.3, 1.7, 1.7, 0.1], rising);
    expect(said(found)).toBe('spring RR positive');
    expect(found.next.family).toBe('corner');
    expect(found.best.amount).toBeCloseTo(-2.4, 1);
    // A falling sensor shows the same body the other way round.
    expect(said(springAt([3.3, 3.3, 1.7, 4.9], mixed))).toBe('spring RR positive');
    expect(patternAt([3.3, 1.7, 1.7, 0.1], rising).weights.spring).toBe(0);
  });

  it('takes an axle for less sure where springs are asked for: stiff roll bars move nearly an axle', () => {
    expect(said(springAt([2.5, 2.5, 3.8, 1.2], mixed))).toBe('axle rear cannot-tell');
    expect(said(springAt([2.5, 2.5, 4.6, 0.4], mixed))).toBe('axle rear positive');
  });

  it('knows a lifted ground by what it does most to low signals', () => {
    // Signals that should be 1.5, 3.5, 2 and 3 V, lifted by 1.2 V at the ground end: x = e + b·(1 − x/Vref).
    const raised = (expected: number) => (expected + 1.2) / (1 + 1.2 / 5);
    const at = (expected: number, sense: 1 | -1) => ({
      value: raised(expected),
      expected,
      spread: 0.05,
      sense,
    });
    const found = patternOf({ LF: at(1.5, 1), RF: at(3.5, -1), LR: at(2, 1), RR: at(3, -1) }, 5);
    expect(said(found)).toBe('raised null very-strong');
    expect(found.best.amount).toBeCloseTo(1.2, 9);
  });

  it('cannot tell an electrical cause from the body where all sensors turn alike', () => {
    const found = patternAt([3.9, 3.9, 3.9, 3.9], rising);
    expect(said(found)).toBe('scaled null cannot-tell');
    expect([found.next.family, found.lead]).toEqual(['body-together', expect.closeTo(0, 9)]);
    expect(found.overNone).toBeGreaterThan(10);
  });

  it('cannot be sure of a corner that is hardly off', () => {
    const found = patternAt([2.5, 2.5, 1.7, 2.5], rising);
    expect(said(found)).toBe('corner LR cannot-tell');
    expect(found.overNone).toBeGreaterThan(0);
    expect(found.overNone).toBeLessThan(2);
  });

  const voltage = fc.integer({ min: 0, max: 500 }).map((hundredths) => hundredths / 100);
  const signal = fc.record({
    value: voltage,
    expected: fc.double({ min: 2, max: 3, noNaN: true }),
    spread: fc.double({ min: 0.1, max: 1, noNaN: true }),
    sense: fc.constantFrom<1 | -1>(1, -1),
  });
  const four: fc.Arbitrary<CornerSignals> = fc.record({ LF: signal, RF: signal, LR: signal, RR: signal });

  it('shares one whole among the families', () => {
    fc.assert(
      fc.property(four, (signals) => {
        const { weights, best, next, lead, overNone } = patternOf(signals, 5);
        expect(Object.values(weights).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
        expect(next.family).not.toBe(best.family);
        expect(lead).toBeGreaterThanOrEqual(-1e-9);
        expect(overNone).toBeGreaterThanOrEqual(-1e-9);
      }),
    );
  });

  const mirror: Readonly<Record<Corner, Corner>> = { LF: 'RF', RF: 'LF', LR: 'RR', RR: 'LR' };
  const turn: Readonly<Record<Corner, Corner>> = { LF: 'LR', RF: 'RR', LR: 'LF', RR: 'RF' };
  const places: Readonly<Record<string, readonly [mirrored: string, turned: string]>> = {
    LF: ['RF', 'LR'],
    RF: ['LF', 'RR'],
    LR: ['RR', 'LF'],
    RR: ['LR', 'RF'],
    left: ['right', 'left'],
    right: ['left', 'right'],
    front: ['front', 'rear'],
    rear: ['rear', 'front'],
  };

  it.each([
    ['mirrored', mirror, 0],
    ['turned end for end', turn, 1],
  ] as const)('is %s where the corners are', (_, to, which) => {
    fc.assert(
      fc.property(four, (signals) => {
        const moved = Object.fromEntries(corners.map((corner) => [to[corner], signals[corner]]));
        const before = patternOf(signals, 5);
        const after = patternOf(moved as CornerSignals, 5);
        // Where two are as good as one another, either may be named.
        fc.pre(before.lead > 1e-6);
        expect(after.best.family).toBe(before.best.family);
        expect(after.best.bic).toBeCloseTo(before.best.bic, 8);
        expect(after.lead).toBeCloseTo(before.lead, 8);
        const place = before.best.place === null ? null : places[before.best.place]?.[which];
        const rival = [before, after].some(({ best, weights }) => weights[best.family] > 1.9 * best.weight);
        if (!rival) expect(after.best.place).toBe(place);
      }),
    );
  });

  it('does not change where every sensor turns its sense and its volts', () => {
    fc.assert(
      fc.property(four, (signals) => {
        const at = (corner: Corner) => {
          const { value, expected, spread, sense } = signals[corner];
          return { value: 2 * expected - value, expected, spread, sense: sense === 1 ? -1 : 1 } as const;
        };
        const bodily = (four: CornerSignals) =>
          fitPatterns(four, 5)
            .filter(({ family }) => family !== 'electrical-together')
            .map(({ name, place, amount, bic }) => ({
              what: `${name} ${place}`,
              amount,
              bic,
            }))
            .sort((a, b) => (a.what < b.what ? -1 : 1));
        // The body does not know how its sensors turn; only the ground end of the wires does.
        const turned = bodily({ LF: at('LF'), RF: at('RF'), LR: at('LR'), RR: at('RR') });
        expect(turned).toEqual(
          bodily(signals).map(({ what, amount, bic }) => ({
            what,
            amount: expect.closeTo(amount, 9),
            bic: expect.closeTo(bic, 6),
          })),
        );
      }),
    );
  });
});
