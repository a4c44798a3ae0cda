/** Controls and marks that turn the direction of text. */
const unsafe = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/gu;

/** Text that is safe on a terminal: controls are shown as what they are, never sent. */
export const clean = (text: string): string =>
  text.replace(unsafe, (character) => {
    const code = character.codePointAt(0) ?? 0;
    return `<${code
      .toString(16)
      .toUpperCase()
      .padStart(code > 0xff ? 4 : 2, '0')}>`;
  });

/** The same on one line, for cells and headings. */
export const oneLine = (text: string): string => clean(text.replace(/\s+/gu, ' ').trim());

/** JSON text in which such characters are escaped: it means the same, and is as safe to look at. */
export const cleanJson = (json: string): string =>
  json.replace(unsafe, (character) => `\\u${(character.codePointAt(0) ?? 0).toString(16).padStart(4, '0')}`);
