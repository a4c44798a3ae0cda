import type { Layout } from '../../job.ts';
import type { Place } from '../../key.ts';
import type { Confirmation, Suspect } from '../model.ts';
import { type Stakes, thresholdOf } from '../stakes.ts';
import { answersTo, attainableFacts, type Fact, isAttainable } from './attainable.ts';
import type { Bench } from './bench.ts';
import { piecesFor } from './pieces.ts';
import { type Reach, reachOf } from './reach.ts';
import type { Wanted } from './sequences.ts';

/** Whether a costly part could ever be ordered on one layout. */
export interface Costly {
  readonly suspect: Suspect;
  readonly corner: Place | null;
  readonly layout: Layout;
  /** W / (W + E): what its probability must be above before it is worth fixing. */
  readonly threshold: number;
  readonly verdict: Reach['verdict'];
  /** The highest probability that was found; null where no finding of the pack can be out. */
  readonly best: number | null;
  /** Findings and outcomes that bring it there, in order. */
  readonly by: readonly Fact[];
  /** Who is the likeliest beside it at the end of them. */
  readonly rival: { readonly id: string; readonly title: string };
  /** Mandatory confirmations that cannot be had on this layout. */
  readonly unconfirmable: readonly Confirmation[];
  /**
   * Where it can be brought over, and each confirmation can be had, but not all that in one course of events:
   * `excluded` where the confirmations rule each other out, `outweighed` where together they speak against it.
   */
  readonly torn: 'excluded' | 'outweighed' | null;
}

const tornBy = ({ verdict, best }: Reach): Costly['torn'] => {
  if (verdict !== 'short') return null;
  return best === null ? 'excluded' : 'outweighed';
};

/** Costly is what may not be ordered while nothing is known of it: being wrong costs too much for its prior. */
const isCostly = (threshold: number, prior: number): boolean => threshold > prior;

const costlyAt = (place: number, bench: Bench, facts: ReadonlySet<Fact>, stakes: Stakes): Costly[] => {
  const one = bench.hypotheses[place];
  if (!one?.suspect) return [];
  const { suspect, place: at, prior } = one;
  const threshold = thresholdOf(one, stakes);
  if (!isCostly(threshold, prior)) return [];
  const rivals = bench.hypotheses.filter((other) => other !== one);
  const reach = (must: Wanted): Reach =>
    reachOf(
      piecesFor(place, bench, facts, must),
      rivals.map((rival) => rival.prior / prior),
      threshold,
      must,
    );
  const unconfirmable = suspect.confirm.filter((wanted) => !isAttainable([wanted], at, bench, facts));
  const confirmed =
    unconfirmable.length === 0 ? reach(suspect.confirm.map((wanted) => answersTo(wanted, at, bench))) : null;
  const { verdict, best, by, against } = confirmed?.verdict === 'over' ? confirmed : reach([]);
  const rival = rivals[against.indexOf(Math.max(...against))];
  return [
    {
      suspect,
      corner: at,
      layout: bench.layout,
      threshold,
      verdict,
      best,
      by,
      rival: { id: rival?.id ?? '', title: rival?.title ?? '' },
      unconfirmable,
      torn: verdict === 'over' && confirmed ? tornBy(confirmed) : null,
    },
  ];
};

/** Every costly part of a layout, in the order of the pack. */
export const costlyOn = (bench: Bench, stakes: Stakes): Costly[] => {
  const facts = attainableFacts(bench);
  return bench.hypotheses.flatMap((_, place) => costlyAt(place, bench, facts, stakes));
};
