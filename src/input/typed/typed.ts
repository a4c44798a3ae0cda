import type { Doubt } from '../../core/readings/doubt.ts';

/** What is wrong with something typed on a command line, and what to type instead. */
export interface TypedFault {
  /** The part that is wrong, as typed. */
  readonly typed: string;
  readonly message: string;
  readonly hint: string | null;
  /** Set where it can be read, and nobody would believe it: `!` behind it says that it is right. */
  readonly doubt?: Doubt;
  /** What could be meant, where it is one of a few things: whoever can answer is asked which. */
  readonly choices?: readonly Choice[];
}

/** Something to choose, as it is typed and as people call it. */
export interface Choice {
  readonly name: string;
  readonly title: string;
}

export type Typed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly fault: TypedFault };

export const right = <T>(value: T): Typed<T> => ({ ok: true, value });

/** The same with the flag that it was given with, so that a fault says which word of the line is wrong. */
export const under = <T>(flag: string, typed: Typed<T>): Typed<T> =>
  typed.ok ? typed : { ok: false, fault: { ...typed.fault, typed: `${flag} ${typed.fault.typed}` } };

export const wrong = (typed: string, message: string, hint: string | null = null): Typed<never> => ({
  ok: false,
  fault: { typed, message, hint },
});

/** `12.31 V, 12310 mV`, as what could be typed instead. */
const listed = (meant: readonly string[]): string =>
  meant.length > 1 ? `${meant.slice(0, -1).join(', ')} or ${meant.at(-1)}` : meant.join('');

/**
 * A reading that nobody would believe.
 *
 * @param typed as typed; with `!` behind it the same would be taken
 */
export const doubted = (typed: string, doubt: Doubt): Typed<never> => {
  const { read, meant } = doubt;
  const instead = meant.length > 0 ? `did you mean ${listed(meant)}? ` : 'read it again. ';
  return {
    ok: false,
    fault: {
      typed,
      message: `${read} is far outside of anything possible here`,
      hint: `${instead}Write ${typed.trim()}! to keep it; it is judged once it was read twice`,
      doubt,
    },
  };
};

/**
 * A jumping signal whose first end is above its second.
 *
 * @param typed as typed; with `!` behind it the same would be taken
 */
export const doubtedSpan = (typed: string, low: string, high: string): Typed<never> => {
  const read = typed.trim();
  // A dot too many is the likelier slip, where both ends are bare digits.
  const meant = [`${low}..${high}`, ...(/^\d+\.\.\d+$/u.test(read) ? [read.replace('..', '.')] : [])];
  return {
    ok: false,
    fault: {
      typed,
      message: `a jumping signal is typed from its low end to its high end, and ${high} is above ${low}`,
      hint: `did you mean ${listed(meant)}? Write ${read}! to keep it`,
      doubt: { read, meant },
    },
  };
};

/** `12310 V? 12.31 V, 12310 mV or ! to keep it`, for whoever can answer. */
export const doubtText = ({ read, meant }: Doubt): string =>
  `${read}? ${(meant.length > 0 ? meant : ['type it again']).join(', ')} or ! to keep it`;

/** A text without the `!` behind it that says that it is right, and whether there was one. */
export const insistedOn = (typed: string): { readonly text: string; readonly insists: boolean } => {
  const text = typed.trim();
  const insists = /^[-+\u2212.]?\d[^!]*!$/u.test(text);
  return { text: insists ? text.slice(0, -1).trimEnd() : text, insists };
};
