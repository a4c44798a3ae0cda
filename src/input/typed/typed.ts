/** What is wrong with something typed on a command line, and what to type instead. */
export interface TypedFault {
  /** The part that is wrong, as typed. */
  readonly typed: string;
  readonly message: string;
  readonly hint: string | null;
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
