import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gaugeArea, parseWireSize, wireDrop, wireResistance } from '../../../src/core/readings/wire.ts';

const areaOf = (text: string): number => {
  const size = parseWireSize(text);
  if (!size.ok) throw new Error(size.fault.message);
  return size.area;
};

const faultOf = (text: string) => {
  const size = parseWireSize(text);
  return size.ok ? null : size.fault;
};

describe('a wire size as typed', () => {
  it.each([
    ['16 AWG', 16],
    ['16AWG', 16],
    ['16 awg', 16],
    ['AWG 16', 16],
    ['0 AWG', 0],
    ['1/0 AWG', 0],
    ['00 AWG', -1],
    ['2/0 AWG', -1],
    ['4/0 AWG', -3],
    ['0000 AWG', -3],
    ['40 AWG', 40],
  ])('%s is gauge %s', (text, gauge) => {
    expect(areaOf(text)).toBe(gaugeArea(gauge));
  });

  it.each([
    ['1.5 mm²', 1.5],
    ['1.5mm2', 1.5],
    ['1.5 mm^2', 1.5],
    ['0.75 sq mm', 0.75],
    ['6 mm²', 6],
  ])('%s is %s mm²', (text, area) => {
    expect(areaOf(text)).toBe(area);
  });

  it.each([
    ['16', 'unknown-unit', 'write 16 AWG or 16 mm²'],
    ['1.5', 'unknown-unit', 'write 1.5 AWG or 1.5 mm²'],
    ['1,5 mm²', 'decimal-comma', 'write 1.5 mm²'],
    ['01.5 mm²', 'leading-zero', 'write 1.5 mm²'],
    ['16.5 AWG', 'not-a-number', 'write a whole number such as 16 AWG, or 1/0 AWG to 4/0 AWG'],
    ['-2 AWG', 'not-a-number', 'write a whole number such as 16 AWG, or 1/0 AWG to 4/0 AWG'],
    ['016 AWG', 'not-a-number', 'write a whole number such as 16 AWG, or 1/0 AWG to 4/0 AWG'],
    ['5/0 AWG', 'not-a-number', 'write a whole number such as 16 AWG, or 1/0 AWG to 4/0 AWG'],
    ['41 AWG', 'wrong-value', 'gauges go from 4/0 AWG to 40 AWG'],
    ['1.5 mm', 'wrong-unit', 'write a gauge such as 16 AWG, or an area such as 1.5 mm²'],
    ['16 SWG', 'unknown-unit', 'write a gauge such as 16 AWG, or an area such as 1.5 mm²'],
    ['thick', 'not-a-number', 'write a gauge such as 16 AWG, or an area such as 1.5 mm²'],
    ['', 'not-a-number', 'write a gauge such as 16 AWG, or an area such as 1.5 mm²'],
    ['0 mm²', 'wrong-value', 'write a gauge such as 16 AWG, or an area such as 1.5 mm²'],
    ['-1 mm²', 'wrong-value', 'write a gauge such as 16 AWG, or an area such as 1.5 mm²'],
  ])('%j is refused: %s, %s', (text, code, hint) => {
    expect(faultOf(text)).toMatchObject({ code, hint });
  });

  it('repeats no endless text', () => {
    expect(faultOf(`${'9'.repeat(500)} AWG`)?.message.length).toBeLessThan(80);
  });
});

describe('the drop of a wire', () => {
  const typed = (value: number, resolution: number) => ({ value, resolution, text: String(value) });
  const positive = fc.double({ min: 0.1, max: 100, noNaN: true });

  it('is current times ρ·l/A, with what the typed digits leave open', () => {
    const drop = wireDrop({ area: 1.5, length: typed(6.1, 0.1), current: typed(4, 1), celsius: 20 });
    expect(drop.volts).toBeCloseTo((4 * 0.017_241 * 6.1) / 1.5, 12);
    const digits = Math.hypot(0.1 / 6.1, 1 / 4) / Math.sqrt(12);
    expect(drop.standard).toBeCloseTo(drop.volts * digits, 12);
  });

  it('grows with length, falls with area, and rises 0.393 % a degree from 20 °C', () => {
    fc.assert(
      fc.property(positive, positive, (area, length) => {
        const ohms = wireResistance(area, length, 20);
        expect(wireResistance(area, 2 * length, 20) / ohms).toBeCloseTo(2, 10);
        expect(wireResistance(2 * area, length, 20) / ohms).toBeCloseTo(0.5, 10);
        expect(wireResistance(area, length, 21) / ohms).toBeCloseTo(1.003_93, 10);
      }),
    );
  });

  it('is four times as large six gauges on, near enough: each step is a tenth of a decade in resistance', () => {
    expect(gaugeArea(10) / gaugeArea(16)).toBeCloseTo(92 ** (12 / 39), 10);
  });
});
