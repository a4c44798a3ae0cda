import type { Finding, Measured } from '../core/finding.ts';
import { formatNumber } from '../core/readings/format-number.ts';
import { openCircuit } from '../core/readings/parse-quantity.ts';
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

/**
 * Decimals that an uncertainty leaves meaningful: those of its first digit, but two from 0.10 to 0.19, which one
 * digit would round too far; never more than three.
 */
const decimalsFor = (expanded: number): number => {
  if (expanded <= 0) return 3;
  const first = -Math.floor(Math.log10(expanded));
  const leading = expanded * 10 ** first;
  return Math.min(3, Math.max(0, first === 1 && leading < 2 ? 2 : first));
};

/** Decimals that a limit needs: few where it was converted or is large, since it may come of a computation. */
const limitDecimals = (limit: number, converted: boolean): number => {
  if (converted) return 1;
  return Math.abs(limit) >= 1 ? 2 : 3;
};

const percentSpace = (unit: UnitName): string => ` ${unit}`;

/** Whether a resistance was typed as open: the number that stands for it tells nobody anything. */
const isBeyondMeter = (value: number, unit: UnitName): boolean =>
  quantityOf(unit) === 'resistance' && convert(value, unit, 'Ω') >= openCircuit;

/** `2.48 V`, to the digits that mean something. */
export const valueText = ({ value, unit, expanded }: Measured, units: Units): string => {
  if (isBeyondMeter(value, unit)) return 'open';
  const to = shownUnit(unit, units);
  const places = decimalsFor(convertSpan(expanded, unit, to));
  return `${convert(value, unit, to)
    .toFixed(places)
    .replace(/^-(0(?:\.0+)?)$/u, '$1')}${percentSpace(to)}`;
};

/** `2.48 ± 0.06 V`. */
export const valueAndSpreadText = (measured: Measured, units: Units): string => {
  if (isBeyondMeter(measured.value, measured.unit)) return 'open';
  const to = shownUnit(measured.unit, units);
  const span = convertSpan(measured.expanded, measured.unit, to);
  const unit = percentSpace(to);
  const value = valueText(measured, units).slice(0, -unit.length);
  return `${value} ± ${span.toFixed(decimalsFor(span))}${unit}`;
};

/** `0.5 to 4.5 V`, `at least 11.8 V`, `at most 0.2 V`. */
export const limitsText = (limits: Limits, unit: UnitName, units: Units): string => {
  const to = shownUnit(unit, units);
  const text = (value: number): string =>
    formatNumber(convert(value, unit, to), limitDecimals(value, unit !== to));
  const { low, high } = limits;
  if (low !== null && high !== null) return `${text(low)} to ${text(high)}${percentSpace(to)}`;
  if (low !== null) return `at least ${text(low)}${percentSpace(to)}`;
  return high === null ? '' : `at most ${text(high)}${percentSpace(to)}`;
};

/** Two significant digits, and all that stand before the point. */
const twoDigits = (value: number): string =>
  Math.abs(value) >= 100 ? value.toFixed(0) : String(Number(value.toPrecision(2)));

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

/** An amount or a rate in the shop's unit, to two significant digits: `5.4 psi`, `0.37 bar`. */
export const amountText = (amount: number, unit: UnitName, units: Units): string => {
  const to = shownUnit(unit, units);
  return `${twoDigits(convertSpan(amount, unit, to))}${percentSpace(to)}`;
};

/** How long something takes, in the unit that a person would choose: `40 min`, `4.2 h`, `3 days`. */
export const durationText = (hours: number): string => {
  if (hours < 1.5) return `${twoDigits(hours * 60)} min`;
  return hours < 48 ? `${twoDigits(hours)} h` : `${twoDigits(hours / 24)} days`;
};

/** Decimals in which a finding's value is shown. */
export const placesOf = (finding: Finding): number => decimalsFor(finding.measured?.expanded ?? 0);
