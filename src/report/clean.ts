/** Controls and marks that turn the direction of text, but for tab and line feed. */
const marks = String.raw`\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069`;
const unsafe = new RegExp(`[${marks}]`, 'gu');

/** Text that is safe on a terminal: controls are shown as what they are, never sent. */
export const clean = (text: string): string =>
  text.replace(unsafe, (character) => {
    const code = character.codePointAt(0) ?? 0;
    return `<${code
      .toString(16)
      .toUpperCase()
      .padStart(code > 0xff ? 4 : 2, '0')}>`;
  });

/** What is not on one line yet, or not safe: most texts are both, and to see that is cheaper than to replace. */
const untidy = new RegExp(String.raw`\s{2}|[^\S ]|^ | $|[${marks}]`, 'u');

/** The same on one line, for cells and headings. */
export const oneLine = (text: string): string =>
  untidy.test(text) ? clean(text.replace(/\s+/gu, ' ').trim()) : text;

/** JSON text in which such characters are escaped: it means the same, and is as safe to look at. */
export const cleanJson = (json: string): string =>
  json.replace(unsafe, (character) => `\\u${(character.codePointAt(0) ?? 0).toString(16).padStart(4, '0')}`);
