/** A line as bash reads it, up to the cursor. */
export interface BashLine {
  /** Words without their quoting; the last is the one at the cursor, which may be empty. */
  readonly words: readonly string[];
  /** How much of the last word stands before the part that bash will put a candidate in place of. */
  readonly kept: number;
  /** The quote that is open at the cursor. */
  readonly quote: '' | '"' | "'";
  /** The word at the cursor is where a redirection goes, and none of ours. */
  readonly redirected: boolean;
}

interface Reading {
  words: string[];
  word: string | null;
  kept: number;
  quote: '' | '"' | "'";
  /** The word being read, or the next one, belongs to a redirection. */
  redirected: boolean;
}

const endWord = (state: Reading): void => {
  if (state.word === null) return;
  if (!state.redirected) state.words.push(state.word);
  state.word = null;
  state.redirected = false;
  state.kept = 0;
};

const append = (state: Reading, character: string): void => {
  state.word = (state.word ?? '') + character;
};

/** Inside quotes; a backslash there means something only before these. */
const quoted = (state: Reading, character: string, next: string): 1 | 2 => {
  if (character === state.quote) {
    state.quote = '';
    return 1;
  }
  if (state.quote === '"' && character === '\\' && next !== '' && '"\\$`'.includes(next)) {
    append(state, next);
    return 2;
  }
  append(state, character);
  return 1;
};

const openQuote = (state: Reading, quote: '"' | "'"): void => {
  state.word ??= '';
  state.quote = quote;
  state.kept = state.word.length;
};

const redirect = (state: Reading): void => {
  // A number before it belongs to it.
  if (state.word !== null && /^\d+$/u.test(state.word)) state.word = null;
  endWord(state);
  state.redirected = true;
};

const plain = (state: Reading, character: string, next: string, breaks: string): 1 | 2 => {
  if (character === '\\') {
    append(state, next);
    return 2;
  }
  if (character === '"' || character === "'") openQuote(state, character);
  else if (/\s/u.test(character)) endWord(state);
  else if (character === '<' || character === '>') redirect(state);
  else if (';|&('.includes(character)) {
    endWord(state);
    state.words = [];
    state.redirected = false;
  } else {
    append(state, character);
    if (breaks.includes(character)) state.kept = state.word?.length ?? 0;
  }
  return 1;
};

/**
 * Splits a line as bash does. Bash itself breaks words at `=` and `:` too before it hands them over, so the line is
 * read anew, and `kept` tells what bash leaves standing.
 *
 * @param breaks the characters of COMP_WORDBREAKS
 */
export const readBashLine = (line: string, breaks: string): BashLine => {
  const state: Reading = { words: [], word: null, kept: 0, quote: '', redirected: false };
  let at = 0;
  while (at < line.length) {
    const character = line[at] ?? '';
    const next = line[at + 1] ?? '';
    at += state.quote === '' ? plain(state, character, next, breaks) : quoted(state, character, next);
  }
  const { words, word, kept, quote, redirected } = state;
  return { words: [...words, word ?? ''], kept, quote, redirected };
};
