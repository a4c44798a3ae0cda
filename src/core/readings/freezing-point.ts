import { interpolate, type Points } from './interpolate.ts';

/** Tables from the state of charge, %, to specific gravity, and from there to the freezing point, °C. */
export interface FreezingTables {
  readonly gravity: Points;
  readonly celsius: Points;
}

/** The temperature at which a battery's acid freezes, °C; by straight lines between the points of the tables. */
export const freezingPoint = (charge: number, { gravity, celsius }: FreezingTables): number =>
  interpolate(celsius, interpolate(gravity, charge).value).value;
