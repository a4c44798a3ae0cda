import type { Draw } from './random.ts';

/** Volts, psi, mm, °C and ohms as somebody types them. */
export type Instrument = 'meter' | 'module' | 'gauge' | 'tape' | 'thermometer';

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
  meter: { gain: 0.005, offset: 0.02, noise: 0.002, decimals: 2, unit: 'V' },
  module: { gain: 0, offset: 0.05, noise: 0.003, decimals: 2, unit: 'V' },
  gauge: { gain: 0, offset: 1, noise: 0.2, decimals: 0, unit: 'psi' },
  tape: { gain: 0, offset: 0, noise: 1.2, decimals: 0, unit: 'mm' },
  thermometer: { gain: 0, offset: 1, noise: 0.2, decimals: 0, unit: '°C' },
};

/** The instruments of one technician. */
export interface Instruments {
  /** The text that is typed for a true value. */
  readonly read: (instrument: Instrument, value: number) => string;
  /** The same in another unit: the meter on ohms. */
  readonly ohms: (value: number) => string;
  /** What the technician sees, as a number: for the answer to a test. */
  readonly see: (instrument: Instrument, value: number) => number;
}

/** Instruments of which each is off by its own fixed amount, and somebody who rounds. */
export const instrumentsFrom = (draw: Draw): Instruments => {
  const off = new Map(
    Object.entries(makers).map(([name, { gain, offset }]) => [
      name,
      { gain: draw.uniform(-gain, gain), offset: draw.uniform(-offset, offset) },
    ]),
  );
  // Some lay the tape to the nearest 5 mm, and some leave out a meter's last digit.
  const coarseTape = draw.chance(0.2);
  const coarseMeter = draw.chance(0.1);
  const see = (instrument: Instrument, value: number): number => {
    const own = off.get(instrument) ?? { gain: 0, offset: 0 };
    return value * (1 + own.gain) + own.offset + draw.normal(0, makers[instrument].noise);
  };
  return {
    see,
    read: (instrument, value) => {
      const seen = see(instrument, value);
      const { decimals, unit } = makers[instrument];
      if (instrument === 'tape' && coarseTape) return `${Math.round(seen / 5) * 5} ${unit}`;
      // Tenths are enough for a supply, and too few for anything under 6 V.
      const digits = instrument === 'meter' && coarseMeter && Math.abs(seen) > 6 ? 1 : decimals;
      const text = seen.toFixed(digits);
      return `${Number(text) === 0 ? text.replace('-', '') : text} ${unit}`;
    },
    ohms: (value) => {
      const seen = value * (1 + draw.uniform(-0.005, 0.005)) + 0.2;
      return `${seen < 1000 ? seen.toFixed(1) : Math.round(seen)} Ω`;
    },
  };
};
