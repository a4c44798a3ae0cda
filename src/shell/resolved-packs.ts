import type { PreparedPacks } from '../core/prepare/prepared-packs.ts';
import type { LocatedFlaw, Problem } from '../input/problem.ts';

/** A pack that says something else than the published or shipped one of the same name and version. */
export interface ReplacedPack {
  readonly id: string;
  readonly version: string;
  readonly path: string;
}

/** What references to packs led to. */
export interface ResolvedPacks {
  readonly prepared: PreparedPacks;
  /** Packs that take the place of others of the same name and version. */
  readonly replaced: readonly ReplacedPack[];
  /** What is wrong with the references, at their places in the job file. */
  readonly flaws: readonly LocatedFlaw[];
  /** What is wrong inside a pack that was found. */
  readonly problems: readonly Problem[];
}
