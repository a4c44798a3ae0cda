import type { Act } from '../acts.ts';
import type { Closing, State } from '../job.ts';
import type { Reason } from '../worksheet-parts.ts';
import type { Command } from './command.ts';

/** What can be the thing to do now; the first that applies is the one. */
export const nowKinds = [
  'stop',
  'correct',
  'read',
  'test',
  'decide',
  'authorise',
  'order',
  'wait',
  'repair',
  'retest',
  'step',
  'hand-over',
  'none',
] as const;
export type NowKind = (typeof nowKinds)[number];

/** Who has to act. */
export const actors = ['technician', 'desk', 'parts', 'customer'] as const;
export type Actor = (typeof actors)[number];

/** What to do, as data; the report puts words to it. */
export type NowTitle =
  /** The words of a pack: a step, a test. */
  | { readonly kind: 'given'; readonly text: string }
  | {
      readonly kind: 'danger';
      readonly danger: string;
      readonly title: string | null;
      readonly forbids: readonly Act[];
    }
  /** A reading that cannot be: `meant` is what could be typed in its place. */
  | {
      readonly kind: 'cannot-be';
      readonly what: string;
      readonly snapshot: string;
      readonly read: string;
      readonly meant: readonly string[];
    }
  /** A test of before the work, once more. */
  | { readonly kind: 'again'; readonly text: string }
  /** Readings that say together what cannot be. */
  | { readonly kind: 'read-again'; readonly what: string; readonly with: string | null }
  /** An entry against its hold point. */
  | { readonly kind: 'despite'; readonly entry: string }
  | { readonly kind: 'read'; readonly state: State; readonly things: readonly string[] }
  | { readonly kind: 'state'; readonly conditions: readonly string[]; readonly snapshot: string }
  | { readonly kind: 'state-vehicle'; readonly facts: readonly string[] }
  | { readonly kind: 'decide'; readonly about: readonly string[] }
  | { readonly kind: 'pass-on' }
  | {
      readonly kind: 'authorise';
      readonly amount: number | null;
      readonly currency: string | null;
      readonly about: boolean;
    }
  | { readonly kind: 'order'; readonly part: string }
  | {
      readonly kind: 'buy-access';
      readonly capability: string;
      readonly equipment: string | null;
      readonly amount: number | null;
      readonly currency: string | null;
      readonly again: boolean;
    }
  | { readonly kind: 'wait'; readonly what: string; readonly whom: string | null }
  | { readonly kind: 'repair'; readonly part: string; readonly isPart: boolean }
  | { readonly kind: 'close'; readonly closing: Closing | null }
  | { readonly kind: 'closed'; readonly closing: Closing | null };

/** The one thing to do now. */
export interface Now {
  readonly kind: NowKind;
  /** A test, a step, `repair.linkage.LR`, `readings/key-on`, a component; null where nothing is to be done. */
  readonly id: string | null;
  readonly title: NowTitle;
  /** Why, the most telling first. */
  readonly because: readonly Reason[];
  /** Of work, and of waiting beside it. */
  readonly minutes: number;
  readonly elapsed: number;
  /** Texts of what to heed before it is done. */
  readonly cautions: readonly string[];
  /** What to type once it is done; null where there is nothing to type. */
  readonly command: Command | null;
  /** Other entries that answer it as well. */
  readonly instead: readonly Command[];
  readonly for: Actor;
}
