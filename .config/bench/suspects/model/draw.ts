/** Draws that look random and are the same for the same seed. */
export interface Draw {
  /** Evenly between two values. */
  readonly uniform: (low: number, high: number) => number;
  /** Evenly over the decades between two values above 0: what contact resistances and leaks do. */
  readonly logUniform: (low: number, high: number) => number;
  readonly normal: (mean: number, deviation: number) => number;
  readonly chance: (p: number) => boolean;
  readonly pick: <T>(from: readonly T[]) => T;
  /** One of several, by their weights. */
  readonly weighted: <T extends { readonly weight: number }>(from: readonly T[]) => T;
}

/** Mulberry32 (T. Ettinger, public domain, from memory): 32 bits of state, good enough to draw a fleet from. */
const mulberry = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
};

/**
 * A stream of its own for each number of a seed, so that one vehicle stays the same however many there are, and what
 * its technician finds stays the same whatever was drawn before.
 */
export const drawFrom = (seed: number, number: number): Draw => {
  const next = mulberry(Math.imul(seed, 0x9e3779b1) ^ Math.imul(number + 1, 0x85ebca6b));
  const uniform = (low: number, high: number): number => low + (high - low) * next();
  return {
    uniform,
    logUniform: (low, high) => Math.exp(uniform(Math.log(low), Math.log(high))),
    // Box and Muller; 1 - u keeps the logarithm from 0.
    normal: (mean, deviation) =>
      mean + deviation * Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    chance: (p) => next() < p,
    pick: (from) => {
      const one = from[Math.floor(next() * from.length)];
      if (one === undefined) throw new Error('there is nothing to pick from');
      return one;
    },
    weighted: (from) => {
      let left = next() * from.reduce((sum, { weight }) => sum + weight, 0);
      for (const one of from) {
        left -= one.weight;
        if (left < 0) return one;
      }
      throw new Error('there is nothing to pick from');
    },
  };
};
