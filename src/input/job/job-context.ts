import type { PreparedPacks } from '../../core/prepare/prepared-packs.ts';
import type { Shop } from './shop.ts';

/** What a job is read against. */
export interface JobContext {
  /** The job's packs. */
  readonly prepared: PreparedPacks;
  readonly shop: Shop | null;
  /** Names that other packs of the library define, with the pack's id: a hint, not an error. */
  readonly elsewhere: ReadonlyMap<string, string>;
  /** Whether a check means the same in another version of its pack; null where that version is not at hand. */
  readonly sameDefinition: (check: string, version: string) => boolean | null;
}
