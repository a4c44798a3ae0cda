/** What a unit measures. A unit of the wrong quantity is an error that names the right ones. */
export type QuantityKind =
  | 'voltage'
  | 'current'
  | 'resistance'
  | 'pressure'
  | 'pressure-rate'
  | 'temperature'
  | 'length'
  | 'length-rate'
  | 'area'
  | 'force'
  | 'time'
  | 'volume'
  | 'ratio';

interface Unit {
  readonly quantity: QuantityKind;
  /** How many base units one of these is. */
  readonly factor: number;
  /** Added after scaling; only temperatures have one. */
  readonly offset?: number;
}

const pascalPerPsi = 6894.757_293_168;

/**
 * Factors to each quantity's base unit (V, A, Ω, kPa, kPa/s, °C, mm, mm², N, s, l, %).
 * Source: NIST SP 811 (2008), appendix B; held to it in tests/outside/units.test.ts.
 */
const table = {
  V: { quantity: 'voltage', factor: 1 },
  mV: { quantity: 'voltage', factor: 0.001 },
  A: { quantity: 'current', factor: 1 },
  mA: { quantity: 'current', factor: 0.001 },
  Ω: { quantity: 'resistance', factor: 1 },
  kΩ: { quantity: 'resistance', factor: 1000 },
  kPa: { quantity: 'pressure', factor: 1 },
  Pa: { quantity: 'pressure', factor: 0.001 },
  MPa: { quantity: 'pressure', factor: 1000 },
  bar: { quantity: 'pressure', factor: 100 },
  mbar: { quantity: 'pressure', factor: 0.1 },
  psi: { quantity: 'pressure', factor: pascalPerPsi / 1000 },
  atm: { quantity: 'pressure', factor: 101.325 },
  inHg: { quantity: 'pressure', factor: 3.386_389 },
  'psi/min': { quantity: 'pressure-rate', factor: pascalPerPsi / 1000 / 60 },
  'psi/h': { quantity: 'pressure-rate', factor: pascalPerPsi / 1000 / 3600 },
  'bar/min': { quantity: 'pressure-rate', factor: 100 / 60 },
  'bar/h': { quantity: 'pressure-rate', factor: 100 / 3600 },
  'kPa/min': { quantity: 'pressure-rate', factor: 1 / 60 },
  'kPa/h': { quantity: 'pressure-rate', factor: 1 / 3600 },
  '°C': { quantity: 'temperature', factor: 1 },
  '°F': { quantity: 'temperature', factor: 1 / 1.8, offset: -32 / 1.8 },
  K: { quantity: 'temperature', factor: 1, offset: -273.15 },
  mm: { quantity: 'length', factor: 1 },
  cm: { quantity: 'length', factor: 10 },
  m: { quantity: 'length', factor: 1000 },
  km: { quantity: 'length', factor: 1e6 },
  in: { quantity: 'length', factor: 25.4 },
  ft: { quantity: 'length', factor: 304.8 },
  mi: { quantity: 'length', factor: 1_609_344 },
  'mm²': { quantity: 'area', factor: 1 },
  'mm/h': { quantity: 'length-rate', factor: 1 / 3600 },
  'in/h': { quantity: 'length-rate', factor: 25.4 / 3600 },
  N: { quantity: 'force', factor: 1 },
  lbf: { quantity: 'force', factor: 4.448_221_615_260_5 },
  s: { quantity: 'time', factor: 1 },
  min: { quantity: 'time', factor: 60 },
  h: { quantity: 'time', factor: 3600 },
  d: { quantity: 'time', factor: 86_400 },
  l: { quantity: 'volume', factor: 1 },
  ml: { quantity: 'volume', factor: 0.001 },
  '%': { quantity: 'ratio', factor: 1 },
} as const satisfies Record<string, Unit>;

export type UnitName = keyof typeof table;

/** Other spellings that people type; matched before case is folded. */
const spellings: Readonly<Record<string, UnitName>> = {
  C: '°C',
  degC: '°C',
  F: '°F',
  degF: '°F',
  ohm: 'Ω',
  ohms: 'Ω',
  '\u03a9': 'Ω',
  '\u2126': 'Ω',
  kohm: 'kΩ',
  k: 'kΩ',
  volt: 'V',
  volts: 'V',
  inch: 'in',
  '"': 'in',
  mm2: 'mm²',
  'mm^2': 'mm²',
  sqmm: 'mm²',
  'sq mm': 'mm²',
  hour: 'h',
  hours: 'h',
  mins: 'min',
  minutes: 'min',
  sec: 's',
  days: 'd',
  litre: 'l',
  litres: 'l',
  liter: 'l',
  liters: 'l',
};

const byFoldedName = new Map<string, UnitName>();
for (const name of Object.keys(table) as UnitName[]) {
  const folded = name.toLowerCase();
  // Two names that fold alike (none today) would make the fold ambiguous, so the first keeps it.
  if (!byFoldedName.has(folded)) byFoldedName.set(folded, name);
}
for (const [spelling, name] of Object.entries(spellings)) {
  const folded = spelling.toLowerCase();
  if (!byFoldedName.has(folded)) byFoldedName.set(folded, name);
}

/** The unit that a typed text means, or null. `MV`, `Psi` and `degF` are understood; nothing is guessed further. */
export const findUnit = (typed: string): UnitName | null => {
  if (Object.hasOwn(table, typed)) return typed as UnitName;
  if (Object.hasOwn(spellings, typed)) return spellings[typed] ?? null;
  return byFoldedName.get(typed.toLowerCase()) ?? null;
};

export const quantityOf = (unit: UnitName): QuantityKind => table[unit].quantity;

/** Every unit of a quantity, for messages. */
export const unitsOf = (quantity: QuantityKind): UnitName[] =>
  (Object.keys(table) as UnitName[]).filter((name) => table[name].quantity === quantity);

const entry = (unit: UnitName): Unit => table[unit];

/** Converts a value; both units must measure the same quantity, anything else is a bug in the caller. */
export const convert = (value: number, from: UnitName, to: UnitName): number => {
  if (from === to) return value;
  const source = entry(from);
  const target = entry(to);
  if (source.quantity !== target.quantity) throw new Error(`cannot convert ${from} to ${to}`);
  return (value * source.factor + (source.offset ?? 0) - (target.offset ?? 0)) / target.factor;
};

/** Converts a difference or an uncertainty: offsets do not apply. */
export const convertSpan = (span: number, from: UnitName, to: UnitName): number =>
  from === to ? span : (span * entry(from).factor) / entry(to).factor;
