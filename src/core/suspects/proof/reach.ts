import type { Fact } from './attainable.ts';
import type { Option, Piece } from './pieces.ts';
import {
  canHappen,
  inOrder,
  isOut,
  oddsAfter,
  shortened,
  sum,
  times,
  totalAfter,
  type Wanted,
} from './sequences.ts';

/** Places in the search that are looked at before it is given up. */
const patience = 20_000;

/** How far findings and tests can bring a suspect. */
export interface Reach {
  /**
   * `over`: some sequence brings it over; `short`: none does; `open`: none was found, and the search was given up
   * before it had seen them all.
   */
  readonly verdict: 'over' | 'short' | 'open';
  /** The highest probability that was found; null where nothing can happen that would lead to a ranking. */
  readonly best: number | null;
  /** What is found out on the way there, in an order in which it can be; of `over` nothing that is not needed. */
  readonly by: readonly Fact[];
  /** Odds of each rival against the suspect at the end of it. */
  readonly against: readonly number[];
}

/** What is looked for, and the best that was found so far. */
interface Hunt {
  readonly odds: readonly number[];
  readonly limit: number;
  readonly must: Wanted;
  best: { readonly total: number; readonly options: readonly Option[] } | null;
  looked: number;
}

/** Pieces in the order in which they are decided. */
interface Lane {
  readonly order: readonly Piece[];
  /** What each rival's odds are multiplied with at best, from each piece on. */
  readonly bound: readonly (readonly number[])[];
  /** The last piece that offers a fact. */
  readonly last: ReadonlyMap<Fact, number>;
}

const leastRatios = (piece: Piece): number[] =>
  (piece[0]?.ratios ?? []).map((_, place) =>
    piece.reduce((least, { ratios }) => Math.min(least, ratios[place] ?? 1), Number.POSITIVE_INFINITY),
  );

const laneOf = (order: readonly Piece[]): Lane => {
  const bound: number[][] = [(order[0]?.[0]?.ratios ?? []).map(() => 1)];
  for (const piece of [...order].reverse()) bound.push(times(bound.at(-1) ?? [], leastRatios(piece)));
  const last = order.flatMap((piece, at) =>
    piece.flatMap(({ steps }) => steps.map(({ fact }): [Fact, number] => [fact, at])),
  );
  return { order, bound: bound.reverse(), last: new Map(last) };
};

const isFound = ({ best, limit }: Hunt): boolean => best !== null && best.total < limit;

const search = (
  hunt: Hunt,
  lane: Lane,
  at: number,
  sofar: readonly Option[],
  now: readonly number[],
): void => {
  if (isFound(hunt) || hunt.looked >= patience) return;
  if (hunt.best !== null && totalAfter(now, lane.bound[at] ?? []) >= hunt.best.total) return;
  hunt.looked += 1;
  const facts = new Set(sofar.flatMap(({ steps }) => steps.map(({ fact }) => fact)));
  const isOpen = (any: readonly Fact[]): boolean =>
    any.some((fact) => facts.has(fact) || (lane.last.get(fact) ?? -1) >= at);
  const isPossible = sofar.every(({ steps }) => steps.every(({ wants }) => wants.every(isOpen)));
  if (!isPossible || !hunt.must.every(isOpen)) return;
  const piece = lane.order[at];
  if (!piece) {
    if (canHappen(sofar, hunt.must)) hunt.best = { total: sum(now), options: sofar };
    return;
  }
  const ways = piece.map((option) => ({ option, total: totalAfter(now, option.ratios) }));
  ways.sort((a, b) => a.total - b.total);
  for (const { option } of ways) search(hunt, lane, at + 1, [...sofar, option], times(now, option.ratios));
};

/** Pieces that something hangs on first: where they rule each other out it shows at once. */
const wantedFirst = (pieces: readonly Piece[], must: Wanted): Piece[] => {
  const steps = (piece: Piece) => piece.flatMap((option) => option.steps);
  const wanted = new Set([...must, ...pieces.flatMap(steps).flatMap(({ wants }) => wants)].flat());
  const isTied = (piece: Piece): boolean =>
    steps(piece).some(({ fact, wants }) => wanted.has(fact) || wants.length > 0);
  return [...pieces.filter(isTied), ...pieces.filter((piece) => !isTied(piece))];
};

/** Each finding that is out as the first of all, with the least odds that could come of it, the best first. */
const openingsOf = (pieces: readonly Piece[], odds: readonly number[]) => {
  const least = pieces.map(leastRatios);
  const all = least.reduce((product, one) => times(product, one), [...odds]);
  return pieces
    .flatMap((piece, at) => {
      const others = all.map((value, place) => value / (least[at]?.[place] ?? 1));
      return piece
        .filter(isOut)
        .map((option) => ({ piece, option, ceiling: totalAfter(others, option.ratios) }));
    })
    .sort((a, b) => a.ceiling - b.ceiling);
};

/**
 * Looks for a sequence of findings and tests that brings a suspect over a probability. It begins with a finding that is
 * out, as every ranking does; then each piece of evidence turns out in one of its ways, or stays unknown. The most
 * telling way is tried first, and a branch is left as soon as even the best of all that is to come, each rival taken
 * by itself, could not improve on what was found (depth first with a bound). So a sequence that is found exists, and
 * where none is found there is none, unless the search was given up.
 *
 * @param odds of each rival against the suspect before anything is known: prior over prior
 * @param threshold to be brought over, above 0 and at most 1
 * @param must facts of which one each must be on record in the end
 */
export const reachOf = (
  pieces: readonly Piece[],
  odds: readonly number[],
  threshold: number,
  must: Wanted = [],
): Reach => {
  const hunt: Hunt = { odds, limit: 1 / threshold - 1, must, best: null, looked: 0 };
  const ordered = wantedFirst(pieces, must);
  const openings = openingsOf(ordered, odds);
  for (const { piece, option } of openings) {
    if (isFound(hunt)) break;
    search(hunt, laneOf([[option], ...ordered.filter((one) => one !== piece)]), 0, [], odds);
  }
  const mayBeOver = openings.some(({ ceiling }) => ceiling < hunt.limit);
  const verdict = isFound(hunt) ? 'over' : mayBeOver && hunt.looked >= patience ? 'open' : 'short';
  if (hunt.best === null) return { verdict, best: null, by: [], against: odds };
  const { total, options } = hunt.best;
  const kept = verdict === 'over' ? shortened(options, odds, hunt.limit, must) : options;
  return { verdict, best: 1 / (1 + total), by: inOrder(kept) ?? [], against: oddsAfter(odds, kept) };
};
