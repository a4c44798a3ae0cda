import { parseKey } from '../key.ts';
import { convert, type QuantityKind, quantityOf, type UnitName } from './units.ts';

/** The lowest and the highest value that anybody would believe, in `unit`. */
export interface Believable {
  readonly low: number;
  readonly high: number;
  readonly unit: UnitName;
}

const volts = (low: number, high: number): Believable => ({ low, high, unit: 'V' });

/**
 * What a reading of each quantity can come to on any vehicle. All of it is judgement, from memory, and wide: beyond it
 * a decimal point or a unit slipped, or the leads are the wrong way round. A quantity that is not named is not bounded.
 */
const ofQuantities: Partial<Readonly<Record<QuantityKind, Believable>>> = {
  voltage: volts(-36, 36),
  current: { low: -1500, high: 1500, unit: 'A' },
  pressure: { low: -15, high: 400, unit: 'psi' },
  temperature: { low: -60, high: 300, unit: '°C' },
  length: { low: -600, high: 2500, unit: 'mm' },
  time: { low: 0, high: 24 * 400, unit: 'h' },
  ratio: { low: -50, high: 150, unit: '%' },
};

/** The same of channels and conditions of which more is known, by their base names. */
const ofNames: Readonly<Record<string, Believable>> = {
  // A signal or a reference that is shorted to a 12 V battery still is one.
  position: volts(-1, 16.5),
  'plug-signal': volts(-1, 16.5),
  'pin-signal': volts(-1, 16.5),
  'unplugged-signal': volts(-1, 16.5),
  reference: volts(-1, 16.5),
  supply: volts(-1, 36),
  battery: volts(-1, 36),
  'pin-supply': volts(-1, 36),
  'compressor-supply': volts(-1, 36),
  'charging-ripple': volts(0, 10),
  'standing-current': { low: -1, high: 60, unit: 'A' },
  'compressor-current': { low: -5, high: 150, unit: 'A' },
  'compressor-run-time': { low: 0, high: 120, unit: 'min' },
  height: { low: 50, high: 1500, unit: 'mm' },
  tyre: { low: 100, high: 800, unit: 'mm' },
  'battery-temperature': { low: -60, high: 90, unit: '°C' },
  air: { low: -60, high: 70, unit: '°C' },
  barometer: { low: 45, high: 110, unit: 'kPa' },
  altitude: { low: -450, high: 6000, unit: 'm' },
};

/**
 * What can be believed of a channel or a condition; null where nothing is known.
 *
 * @param name a channel's key, or the name of a condition
 * @param unit its usual unit, in which the bounds are given
 */
export const believable = (name: string, unit: UnitName): Believable | null => {
  const { base } = parseKey(name);
  const own = Object.hasOwn(ofNames, base) ? ofNames[base] : undefined;
  const fits = own !== undefined && quantityOf(own.unit) === quantityOf(unit);
  const bounds = fits ? own : ofQuantities[quantityOf(unit)];
  if (bounds === undefined) return null;
  return {
    low: convert(bounds.low, bounds.unit, unit),
    high: convert(bounds.high, bounds.unit, unit),
    unit,
  };
};
