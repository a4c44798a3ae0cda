import type { ProblemCode } from '../flaw.ts';
import { parseQuantity, type QuantityFault, type TypedValue } from './parse-quantity.ts';
import { resolutionUncertainty } from './statistics.ts';

/** Resistivity of annealed copper at 20 °C, Ω·mm²/m, and its temperature coefficient there, 1/°C (IEC 60028). */
const copper = { resistivity: 0.017_241, coefficient: 0.003_93, at: 20 } as const;

/** Diameter in mm of a solid wire of an American gauge; 1/0 to 4/0 are 0 to −3. Source: ASTM B258. */
export const gaugeDiameter = (gauge: number): number => 0.127 * 92 ** ((36 - gauge) / 39);

/** Cross-section in mm² of a wire of an American gauge. */
export const gaugeArea = (gauge: number): number => (Math.PI / 4) * gaugeDiameter(gauge) ** 2;

/**
 * Resistance of a copper wire, Ω: ρ·l/A, with ρ by temperature.
 *
 * @param area cross-section, mm²
 * @param length all the wire that the current goes through, there and back where both count, m
 */
export const wireResistance = (area: number, length: number, celsius: number): number => {
  const resistivity = copper.resistivity * (1 + copper.coefficient * (celsius - copper.at));
  return (resistivity * length) / area;
};

/** A stretch of wire and the load that its drop was measured under, as the job states them. */
export interface Wire {
  /** mm² */
  readonly area: number;
  /** m, all of the wire between the two points of measuring. */
  readonly length: TypedValue;
  /** A */
  readonly current: TypedValue;
  readonly celsius: number;
}

/** What copper alone drops, V, with what the typed digits of length and current leave open (standard uncertainty). */
export const wireDrop = ({ area, length, current, celsius }: Wire): { volts: number; standard: number } => {
  const volts = current.value * wireResistance(area, length.value, celsius);
  const share = Math.hypot(
    resolutionUncertainty(length.resolution) / length.value,
    resolutionUncertainty(current.resolution) / current.value,
  );
  return { volts, standard: volts * share };
};

/** Why a text is no wire size, and what to write. */
export interface WireFault {
  readonly code: ProblemCode;
  readonly message: string;
  readonly hint: string;
  readonly typed?: QuantityFault['typed'];
}

export type WireSize =
  | { readonly ok: true; readonly area: number }
  | { readonly ok: false; readonly fault: WireFault };

const example = 'write a gauge such as 16 AWG, or an area such as 1.5 mm²';
const fault = (code: ProblemCode, message: string, hint = example): WireSize => ({
  ok: false,
  fault: { code, message, hint },
});

const thinnest = 40;
const gaugeText = /^(?:awg\s*(?<after>.*)|(?<before>.*?)\s*awg)$/iu;

/** `16`, `0`, `00` or `2/0` as the number that the formula takes; null for anything else. */
const gaugeNumber = (text: string): number | null => {
  if (/^(?:0|[1-9]\d{0,3})$/u.test(text)) return Number(text);
  if (/^0{2,4}$/u.test(text)) return 1 - text.length;
  const [, times] = /^([1-4])\/0$/u.exec(text) ?? [];
  return times === undefined ? null : 1 - Number(times);
};

/** Reads a wire's size as typed (`16 AWG`, `2/0 AWG`, `1.5 mm²`, `1.5 mm2`) into its cross-section in mm². */
export const parseWireSize = (typed: string): WireSize => {
  const text = typed.trim();
  const shown = text.length > 24 ? `${text.slice(0, 24)}…` : text;
  const { before, after } = gaugeText.exec(text)?.groups ?? {};
  const gaugeTyped = before ?? after;
  if (gaugeTyped !== undefined) {
    const gauge = gaugeNumber(gaugeTyped);
    if (gauge === null) {
      const hint = 'write a whole number such as 16 AWG, or 1/0 AWG to 4/0 AWG';
      return fault('not-a-number', `"${shown}" is not a wire gauge`, hint);
    }
    if (gauge > thinnest) {
      const hint = `gauges go from 4/0 AWG to ${thinnest} AWG`;
      return fault('wrong-value', `"${shown}" is thinner than any wire of a feed`, hint);
    }
    return { ok: true, area: gaugeArea(gauge) };
  }
  if (/^[+-]?\d+(?:\.\d+)?$/u.test(text)) {
    const hint = `write ${shown} AWG or ${shown} mm²`;
    return fault('unknown-unit', `"${shown}" may be a gauge or square millimetres`, hint);
  }
  const parsed = parseQuantity(text, 'mm²');
  if (parsed.ok) {
    const { value } = parsed.value;
    return value > 0 ? { ok: true, area: value } : fault('wrong-value', 'a wire has some thickness');
  }
  const { code, message, hint, typed: word } = parsed.fault;
  if (code === 'decimal-comma' || code === 'leading-zero') return fault(code, message, hint);
  if (code === 'not-a-number') return fault(code, `"${shown}" is not a wire size`);
  return { ok: false, fault: { code, message, hint: example, ...(word && { typed: word }) } };
};
