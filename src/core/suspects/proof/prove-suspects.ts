import { layouts } from '../../job.ts';
import type { Pack } from '../../pack.ts';
import { benchOf } from './bench.ts';
import { type Blur, blursOf } from './blurs.ts';
import { type Costly, costlyOn } from './costly.ts';

/** An hour of work where no shop says: high rather than low, since dear work makes a wrong part dearer. Judgement. */
export const usualRate = 85;

/** What a pack's suspects can come to, whatever is read and tested. */
export interface SuspectsProof {
  readonly pack: Pack;
  /** Groups that readings alone cannot tell apart. */
  readonly blurs: readonly Blur[];
  /** Every costly part on every layout; null where the pack does not say what escalating costs. */
  readonly costly: readonly Costly[] | null;
  /** An hour of work, as counted. */
  readonly rate: number;
}

/**
 * Looks at a pack's suspects by itself: nothing but what the pack says, on each layout with every corner fitted.
 *
 * @param rate an hour of work, in the currency of the pack's costs
 * @returns null where the pack has no suspects
 */
export const proveSuspects = (pack: Pack, rate: number): SuspectsProof | null => {
  const benches = layouts.flatMap((layout) => benchOf(pack, layout) ?? []);
  if (benches.length === 0) return null;
  const escalate = pack.suspectTerms?.escalate ?? null;
  return {
    pack,
    blurs: blursOf(benches),
    costly:
      escalate === null
        ? null
        : benches.flatMap((bench) => costlyOn(bench, { rate, escalate, assumed: false, downtime: 0 })),
    rate,
  };
};

/** Whether a costly part could never be ordered: its threshold or what must confirm it is out of reach. */
export const isOutOfReach = ({ verdict, unconfirmable }: Costly): boolean =>
  verdict === 'short' || unconfirmable.length > 0;

export const hasFailed = ({ costly }: SuspectsProof): boolean => costly?.some(isOutOfReach) ?? false;
