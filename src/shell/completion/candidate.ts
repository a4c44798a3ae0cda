import { clean, oneLine } from '../../report/clean.ts';

/** Something that may stand where the cursor is. */
export interface Candidate {
  readonly value: string;
  readonly about: string;
}

/** What may stand where the cursor is: some words, or names that a shell lists itself. */
export type Wanted =
  | { readonly kind: 'words'; readonly candidates: readonly Candidate[] }
  | { readonly kind: 'files' }
  | { readonly kind: 'folders' };

export const candidate = (value: string, about = ''): Candidate => ({ value, about });

/** Words that need no telling what they are. */
export const words = (values: readonly string[]): Wanted => ({
  kind: 'words',
  candidates: values.map((value) => candidate(value)),
});

/**
 * Those that continue what is typed, each once. Names come from files of others: one with a control in it could not
 * be typed, and a terminal would obey it, so it is left out.
 */
export const continuing = (typed: string, candidates: readonly Candidate[]): Candidate[] => {
  const once = new Map<string, Candidate>();
  for (const { value, about } of candidates) {
    const fits = value.startsWith(typed) && value === clean(value) && !/[\t\n]/u.test(value);
    if (fits && !once.has(value)) once.set(value, { value, about: oneLine(about) });
  }
  return [...once.values()];
};
