import type { State, Verb } from '../job.ts';

/** A value that the person who types has to fill in: a choice among some, or words of their own. */
export type Blank =
  | { readonly kind: 'choice'; readonly of: readonly string[] }
  | { readonly kind: 'text' }
  | { readonly kind: 'amount'; readonly about: number | null }
  | { readonly kind: 'day' };

/** An option of a command with what stands after it. */
export interface CommandOption {
  readonly name: string;
  readonly value: Blank;
}

/** A condition to state, with the words that would serve; none where any will do, or where it is a quantity. */
export interface StatedCondition {
  readonly name: string;
  readonly wants: readonly string[];
}

/** A line to type, in parts: the report writes it out for a file. */
export type Command =
  | {
      readonly kind: 'log';
      readonly did: Verb;
      /** Several where any of them will do, such as `repaired` or `replaced`. */
      readonly orDid: readonly Verb[];
      readonly what: string | null;
      readonly options: readonly CommandOption[];
    }
  /** Readings of one state; `fill` asks for them where they are many. */
  | {
      readonly kind: 'add';
      readonly state: State;
      readonly names: readonly string[];
      /** Those of the names that are read several times, so that it shows how still they stand. */
      readonly several: readonly string[];
      readonly conditions: readonly StatedCondition[];
      readonly lamp: boolean;
      readonly codes: boolean;
    }
  /** Conditions that a snapshot lacks. */
  | {
      readonly kind: 'fix';
      readonly snapshot: string;
      readonly conditions: readonly StatedCondition[];
    }
  | { readonly kind: 'waive'; readonly finding: string }
  /** Something that only an editor changes: where it stands in the file. */
  | { readonly kind: 'edit'; readonly at: string };

/** An option whose value is one of some words. */
export const choose = (name: string, of: readonly string[]): CommandOption => ({
  name,
  value: { kind: 'choice', of },
});

/** An option whose value is in the words of whoever types it. */
export const say = (name: string): CommandOption => ({ name, value: { kind: 'text' } });

/** An entry of the log. */
export const logged = (did: Verb, what: string | null, ...options: CommandOption[]): Command => ({
  kind: 'log',
  did,
  orDid: [],
  what,
  options,
});
