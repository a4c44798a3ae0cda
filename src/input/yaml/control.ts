/**
 * Controls, marks that turn the direction of text, characters without width, and halves of characters: none has any
 * business in a name or a note. Tab and line feed are left to YAML.
 */
const control =
  /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060\u2066-\u2069\ud800-\udfff\ufeff]/u;

/** The first such character of a text, or null. */
export const findControl = (text: string): string | null => control.exec(text)?.[0] ?? null;

/** `U+202E`, for a message: the character itself cannot be shown. */
export const codePointName = (character: string): string =>
  `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;
