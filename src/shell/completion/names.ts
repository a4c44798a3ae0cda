import type { Pack } from '../../core/pack.ts';

/** A pack by its name, with the versions there are, the newest first. */
export interface PackName {
  readonly id: string;
  readonly versions: readonly string[];
}

/** Names that stand in files: read only where they are wanted, since a prompt waits for them. */
export interface Names {
  /**
   * The packs of the job in a file, or where that cannot be read the newest of all.
   *
   * @param rules rule folders named on the line
   */
  readonly packsOf: (file: string, rules: readonly string[]) => Promise<readonly Pack[]>;
  /** Names of the snapshots of the job in a file, the newest first; none where it cannot be read. */
  readonly snapshotsOf: (file: string, rules: readonly string[]) => Promise<readonly string[]>;
  /** Every pack that can be named. */
  readonly packNames: (rules: readonly string[]) => Promise<readonly PackName[]>;
}
