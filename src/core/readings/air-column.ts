import { kelvin } from './air.ts';

/**
 * How far a body on air springs moves as the gas warms or cools, valves shut: the load keeps the pressure, so the
 * column's length goes with its absolute temperature, Δh = L·ΔT/T. With L = 250 mm that is 9 mm for 10 °C.
 *
 * @param column effective length of the air column, mm
 * @param from °C
 * @param to °C
 * @returns mm, positive upwards
 */
export const columnChange = (column: number, from: number, to: number): number =>
  (column * (to - from)) / kelvin(from);
