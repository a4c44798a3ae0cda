import type { OutcomeTable } from './information.ts';

/** Something that can be done now, with its cost in excess of the right repair under each hypothesis, never negative. */
export interface Action {
  readonly id: string;
  readonly losses: readonly number[];
}

/** A test: what it costs, what preparation it shares with others, and what it can find. */
export interface Probe {
  readonly id: string;
  /** Without the shared preparation. */
  readonly cost: number;
  /** Work that is done once for all tests that name it; null for none. */
  readonly setUp: { readonly id: string; readonly cost: number } | null;
  readonly outcomes: OutcomeTable;
}
