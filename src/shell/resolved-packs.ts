import type { PreparedPacks } from '../core/prepare/prepared-packs.ts';
import type { LocatedFlaw, Problem } from '../input/problem.ts';

/** What references to packs led to. */
export interface ResolvedPacks {
  readonly prepared: PreparedPacks;
  /** What is wrong with the references, at their places in the job file. */
  readonly flaws: readonly LocatedFlaw[];
  /** What is wrong inside a pack that was found. */
  readonly problems: readonly Problem[];
}
