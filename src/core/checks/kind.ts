import type { Basis } from '../finding.ts';
import type { Flaw } from '../flaw.ts';
import type { Channel, Rule, Says } from '../pack.ts';

/** A JSON Schema fragment; plain data, compiled elsewhere. */
export type Schema = Readonly<Record<string, unknown>>;

/** What reading a check's parameters may ask for and report to. */
export interface KindScope {
  /** Channels that the pack declares, by base name. */
  readonly channels: ReadonlyMap<string, Channel>;
  /** Names of the pack's checks. */
  readonly checks: readonly string[];
  /** The check's own basis and words, which tiers inherit. */
  readonly basis: Basis;
  readonly says: Says;
  /** Reports a flaw at a path below the check. */
  readonly flaw: (flaw: Flaw) => void;
}

/**
 * A kind of check: its parameters' schema, and what it makes of them. One file a kind; `index.ts` lists them.
 * `read` gets parameters that already fit the schema; what a schema cannot say it reports as flaws.
 */
export interface Kind {
  readonly kind: string;
  /** One sentence: what it judges. */
  readonly about: string;
  readonly properties: Readonly<Record<string, Schema>>;
  readonly required: readonly string[];
  readonly read: (raw: Readonly<Record<string, unknown>>, scope: KindScope) => Rule;
}

/** A quantity in a pack: a text with its unit, or a bare number. */
export const quantitySchema: Schema = {
  type: ['string', 'number'],
  'x-expected': 'a quantity such as 0.25 V',
};
