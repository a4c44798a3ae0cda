import type { Instant } from '../../core/job.ts';
import type { PreparedPacks } from '../../core/prepare/prepared-packs.ts';
import type { Shop } from './shop.ts';

/** What is known of a job's file beside its text: what a job that does not say so is taken to be. */
export interface JobSource {
  /** The file's name without its ending. */
  readonly name: string;
  /** The time zone of the machine. */
  readonly zone: () => string;
  /** When the file was last saved, no later than it is judged, which may hang on the job's zone. */
  readonly savedAt: (zone: string) => Instant;
}

/** What a job is read against. */
export interface JobContext {
  /** The job's packs. */
  readonly prepared: PreparedPacks;
  readonly shop: Shop | null;
  /** The file that the job was read from; absent for a text without one. */
  readonly source?: JobSource;
  /** True where neither the job nor the shop names packs, so that all at hand are used. */
  readonly packsAssumed?: boolean;
  /** Names that other packs of the library define, with the pack's id: a hint, not an error. */
  readonly elsewhere: ReadonlyMap<string, string>;
  /** Whether a check means the same in another version of its pack; null where that version is not at hand. */
  readonly sameDefinition: (check: string, version: string) => boolean | null;
}
