import type { Finding, Measured } from '../core/finding.ts';
import { formatNumber } from '../core/readings/format-number.ts';
import { convert, convertSpan, quantityOf, type UnitName } from '../core/readings/units.ts';
import type { Limits } from '../core/readings/verdict.ts';
import type { ReportOptions } from './style.ts';

type Units = Pick<ReportOptions, 'pressureUnit' | 'temperatureUnit'>;

/** The unit to show a value in: the shop's choice for its quantity, else the check's own. */
const shownUnit = (unit: UnitName, units: Units): UnitName => {
  if (quantityOf(unit) === 'pressure') return units.pressureUnit ?? unit;
  if (quantityOf(unit) === 'temperature') return units.temperatureUnit ?? unit;
  if (quantityOf(unit) === 'pressure-rate' && units.pressureUnit !== null) {
    const per = unit.split('/')[1];
    return `${units.pressureUnit}/${per}` as UnitName;
  }
  return unit;
};

/** Decimals that an uncertainty leaves meaningful: its first digit, and never more than three. */
const decimalsFor = (expanded: number): number =>
  expanded > 0 ? Math.min(3, Math.max(0, -Math.floor(Math.log10(expanded)))) : 3;

/** Decimals that a limit needs in the unit it is shown in. */
const limitDecimals = (from: UnitName, to: UnitName): number => (from === to ? 3 : 1);

const percentSpace = (unit: UnitName): string => ` ${unit}`;

/** `2.48 V`, to the digits that mean something. */
export const valueText = ({ value, unit, expanded }: Measured, units: Units): string => {
  const to = shownUnit(unit, units);
  const places = decimalsFor(convertSpan(expanded, unit, to));
  return `${convert(value, unit, to)
    .toFixed(places)
    .replace(/^-(0(?:\.0+)?)$/u, '$1')}${percentSpace(to)}`;
};

/** `± 0.06 V`, one digit. */
export const spreadText = ({ unit, expanded }: Measured, units: Units): string => {
  const to = shownUnit(unit, units);
  const span = convertSpan(expanded, unit, to);
  return `± ${span.toFixed(decimalsFor(span))}${percentSpace(to)}`;
};

/** `0.5 to 4.5 V`, `at least 11.8 V`, `at most 0.2 V`. */
export const limitsText = (limits: Limits, unit: UnitName, units: Units): string => {
  const to = shownUnit(unit, units);
  const places = limitDecimals(unit, to);
  const text = (value: number): string => formatNumber(convert(value, unit, to), places);
  const { low, high } = limits;
  if (low !== null && high !== null) return `${text(low)} to ${text(high)}${percentSpace(to)}`;
  if (low !== null) return `at least ${text(low)}${percentSpace(to)}`;
  return high === null ? '' : `at most ${text(high)}${percentSpace(to)}`;
};

/** A distance in a unit, without its sign. */
export const distanceText = (distance: number, unit: UnitName, places: number, units: Units): string => {
  const to = shownUnit(unit, units);
  return `${Math.abs(convertSpan(distance, unit, to)).toFixed(places)}${percentSpace(to)}`;
};

/** Degrees Celsius in the shop's unit. */
export const degreesText = (celsius: number, units: Units): string => {
  const to = units.temperatureUnit ?? '°C';
  return `${convert(celsius, '°C', to).toFixed(0)} ${to}`;
};

/** Decimals in which a finding's value is shown. */
export const placesOf = (finding: Finding): number => decimalsFor(finding.measured?.expanded ?? 0);
