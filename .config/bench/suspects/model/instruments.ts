import type { Draw } from './draw.ts';
import type { Car } from './vehicle.ts';

/** What a technician reads with. */
export type Instrument = 'meter' | 'clamp' | 'module' | 'shown-pressure' | 'gauge' | 'tape' | 'thermometer';

interface Maker {
  /** Half-widths within which an instrument is off: of its reading, and in its unit. The usual ones of a shop. */
  readonly gain: number;
  readonly offset: number;
  /** Random from one reading to the next, in its unit. */
  readonly noise: number;
  readonly decimals: number;
  readonly unit: string;
}

const makers: Readonly<Record<Instrument, Maker>> = {
  meter: { gain: 0.004, offset: 0.012, noise: 0.003, decimals: 2, unit: 'V' },
  clamp: { gain: 0.01, offset: 0.1, noise: 0.1, decimals: 1, unit: 'A' },
  module: { gain: 0, offset: 0.03, noise: 0.004, decimals: 2, unit: 'V' },
  'shown-pressure': { gain: 0, offset: 0.3, noise: 0.2, decimals: 0, unit: 'psi' },
  gauge: { gain: 0, offset: 0.7, noise: 0.2, decimals: 0, unit: 'psi' },
  tape: { gain: 0, offset: 0, noise: 1.2, decimals: 0, unit: 'mm' },
  thermometer: { gain: 0, offset: 0.7, noise: 0.2, decimals: 0, unit: '°C' },
};

/** The instruments of one technician. */
export interface Instruments {
  /** The text that is typed for a true value. */
  readonly read: (instrument: Instrument, value: number) => string;
  /** The meter on small volts, amperes and ohms: a number with its digits, and the unit that is given. */
  readonly fine: (value: number, decimals: number, unit: string) => string;
  readonly ohms: (value: number) => string;
  /** What the technician sees, as a number: for the answer to a test. */
  readonly see: (instrument: Instrument, value: number) => number;
}

const plain = (value: number, decimals: number): string => {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text;
};

/** Instruments of which each is off by its own fixed amount, and somebody who rounds. */
export const instrumentsFrom = (
  draw: Draw,
  { instruments: wrong }: Pick<Car, 'instruments'>,
): Instruments => {
  const off = new Map(
    Object.entries(makers).map(([name, { gain, offset }]) => [
      name,
      { gain: draw.uniform(-gain, gain), offset: draw.uniform(-offset, offset) },
    ]),
  );
  const faults: Partial<Record<Instrument, { gain: number; offset: number }>> = {
    meter: { gain: wrong.meter, offset: 0 },
    gauge: { gain: 0, offset: wrong.gauge },
  };
  // Some lay the tape to the nearest 5 mm, and some leave out a meter's last digit.
  const coarseTape = draw.chance(0.15);
  const coarseMeter = draw.chance(0.1);
  const see = (instrument: Instrument, value: number): number => {
    const own = off.get(instrument) ?? { gain: 0, offset: 0 };
    const fault = faults[instrument] ?? { gain: 0, offset: 0 };
    const seen = value * (1 + own.gain) * (1 + fault.gain) + own.offset + fault.offset;
    return seen + draw.normal(0, makers[instrument].noise);
  };
  return {
    see,
    read: (instrument, value) => {
      const seen = see(instrument, value);
      const { decimals, unit } = makers[instrument];
      if (instrument === 'tape' && coarseTape) return `${Math.round(seen / 5) * 5} ${unit}`;
      // Tenths are enough for a supply, and too few for anything under 6 V.
      const digits = instrument === 'meter' && coarseMeter && Math.abs(seen) > 6 ? 1 : decimals;
      return `${plain(seen, digits)} ${unit}`;
    },
    fine: (value, decimals, unit) =>
      `${plain(value * (1 + draw.uniform(-0.006, 0.006)) * (1 + wrong.meter), decimals)} ${unit}`,
    ohms: (value) => {
      if (value > 40e6) return 'open';
      const seen = value * (1 + draw.uniform(-0.005, 0.005)) + 0.1;
      return `${seen < 1000 ? seen.toFixed(1) : Math.round(seen)} Ω`;
    },
  };
};
