import { oneLine } from '../clean.ts';

const named: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text of others as HTML has it, in an element as in an attribute's quotes: no character marks anything up. */
export const escaped = (text: string): string =>
  oneLine(text).replace(/[&<>"']/gu, (character) => named[character] ?? '');
