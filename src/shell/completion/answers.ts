import type { BashLine } from './bash-line.ts';
import type { Candidate, Wanted } from './candidate.ts';

/** What bash takes as it stands; all else it might expand, or run. */
const plainInBash = /^[\w@%+=:,./-]*$/u;

const bashEscaped = (text: string): string => text.replace(/[^\w@%+=:,./-]/gu, '\\$&');

/** In quotes that are open already nothing can be escaped, so what they do not protect is left out. */
const bashWord = (rest: string, quote: BashLine['quote']): string | null => {
  if (quote === '') return plainInBash.test(rest) ? rest : bashEscaped(rest);
  return (quote === '"' ? /["$`\\!]/u : /'/u).test(rest) ? null : rest;
};

/**
 * For bash: first how to take the lines, then the lines. `words` and `nospace` are ready to be put into the line;
 * `files` are quoted by bash; `folders` and `default` are left to it altogether.
 */
export const bashAnswer = (
  wanted: Wanted,
  { kept, quote, redirected }: BashLine,
  listed: readonly string[] | null,
): string[] => {
  if (redirected) return ['default'];
  if (wanted.kind === 'folders') return ['folders'];
  if (wanted.kind === 'files')
    return listed === null ? ['default'] : ['files', ...listed.map((name) => name.slice(kept))];
  const lines = wanted.candidates
    .map(({ value }) => bashWord(value.slice(kept), quote))
    .filter((line) => line !== null);
  return [lines.some((line) => line.endsWith('=')) ? 'nospace' : 'words', ...lines];
};

const columns = ({ value, about }: Candidate): string => `${value}\t${about}`;

/**
 * For zsh and fish, which quote by themselves and list files better than anyone: a value and what it is in each line,
 * or one line without a tab that asks for files or folders.
 */
export const plainAnswer = (wanted: Wanted): string[] =>
  wanted.kind === 'words' ? wanted.candidates.map(columns) : [`:${wanted.kind}`];

const powershellWord = (text: string): string =>
  /^[\w./\\:=+~-]+$/u.test(text) ? text : `'${text.replace(/['\u2018-\u201b]/gu, '$&$&')}'`;

/** For PowerShell: what to put into the line, what to show, and what it is. No line leaves files to PowerShell. */
export const powershellAnswer = (wanted: Wanted, listed: readonly string[] | null): string[] => {
  if (wanted.kind === 'words')
    return wanted.candidates.map(
      ({ value, about }) => `${powershellWord(value)}\t${value}\t${about === '' ? value : about}`,
    );
  if (wanted.kind === 'folders') return [];
  return (listed ?? []).map((name) => `${powershellWord(name)}\t${name}\t${name}`);
};
