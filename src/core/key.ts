import { type Axle, axles, type Corner, corners, isCorner } from './corner.ts';

/**
 * Channels and components share one spelling: a base name, and for those that exist at each corner or axle a dot and
 * the place (`position.LF`, `sensor.LR`, `sensor-ground.front`, `tank`).
 */
export interface Key {
  readonly base: string;
  readonly corner: Corner | null;
  readonly axle: Axle | null;
}

/** Every corner's name has two letters, so the dot can only be the third character from the end. */
const dotFromEnd = 3;
const dot = 0x2e;

/** Where the dot before an axle's name stands; -1 where no axle ends the text. */
const axleDot = (text: string): number => {
  const { length } = text;
  if (length > 6 && text.charCodeAt(length - 6) === dot && text.endsWith('front')) return length - 6;
  return length > 5 && text.charCodeAt(length - 5) === dot && text.endsWith('rear') ? length - 5 : -1;
};

/** Splits `position.LF` into its base and its place; a dot that no corner or axle follows stays part of the base. */
export const parseKey = (text: string): Key => {
  const at = text.length - dotFromEnd;
  if (at > 0 && text.charCodeAt(at) === dot) {
    const tail = text.slice(at + 1);
    if (isCorner(tail)) return { base: text.slice(0, at), corner: tail, axle: null };
  }
  const axle = axleDot(text);
  return axle < 0
    ? { base: text, corner: null, axle: null }
    : { base: text.slice(0, axle), corner: null, axle: text.slice(axle + 1) as Axle };
};

/** Where on the vehicle something is that exists more than once. */
export type Place = Corner | Axle;

/** How often a component or a test exists: once, at each corner, on each axle, or once and on each axle, too. */
export type Per = 'vehicle' | 'corner' | 'axle' | 'both';

const axleNames = Object.keys(axles) as Axle[];

const places: Readonly<Record<Per, readonly (Place | null)[]>> = {
  vehicle: [null],
  corner: corners,
  axle: axleNames,
  both: [null, ...axleNames],
};

/** The places of what exists so often; null for the whole vehicle. */
export const placesOf = (per: Per): readonly (Place | null)[] => places[per];

/** Every key of a base name that exists so often. */
export const keysOf = (base: string, per: Per): string[] => places[per].map((place) => keyOf(base, place));

/** A key from its parts. */
export const keyOf = (base: string, place: Place | null): string =>
  place === null ? base : `${base}.${place}`;
