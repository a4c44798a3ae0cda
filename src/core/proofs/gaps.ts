import type { Path } from '../flaw.ts';
import type { Weight } from '../job.ts';
import type { NamedThing } from './asked-names.ts';
import type { Suggestion } from './suggestion.ts';

/** Something that a pack leaves unproved, or that can never be. Words are put to it in the report. */
export type Gap = { readonly path: Path } & GapKind;

type GapKind =
  /** No proof notices that a limit is moved, by the least share at which that is so. */
  | {
      readonly kind: 'unnoticed';
      /** `pack/check` */
      readonly check: string;
      readonly from: string;
      readonly to: string;
      readonly share: number;
      readonly way: 'up' | 'down';
      readonly suggestion: Suggestion | null;
    }
  /** A limit without a unit; the unit is null where only its kind knows it. */
  | { readonly kind: 'no-unit'; readonly check: string; readonly text: string; readonly unit: string | null }
  /** A lighter limit that a heavier one, no further out, always comes before. */
  | {
      readonly kind: 'never-reported';
      readonly check: string;
      readonly weight: Weight;
      readonly side: 'low' | 'high';
      readonly limit: string;
      readonly heavier: Weight;
      readonly heavierLimit: string;
    }
  /** A step, a check or another thing that no pack of the library has. */
  | {
      readonly kind: 'unknown-name';
      readonly what: NamedThing;
      readonly name: string;
      /** What asks for it: `step program`. */
      readonly by: string;
      readonly known: readonly string[];
    }
  | { readonly kind: 'step-not-shown'; readonly step: string }
  | { readonly kind: 'channel-not-judged'; readonly channel: string }
  | { readonly kind: 'caution-not-used'; readonly caution: string }
  | { readonly kind: 'not-shown'; readonly check: string; readonly lacks: 'firing' | 'silent' }
  | { readonly kind: 'nothing-run' };

/** A gap with its place in the pack's file. */
export interface PlacedGap {
  readonly gap: Gap;
  /** Counted from 1. */
  readonly line: number;
  /** What was probably meant, where something is misspelt; else null. */
  readonly meant: string | null;
}
