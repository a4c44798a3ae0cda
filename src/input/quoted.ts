/** At most this much of a typed text is repeated in a message. */
const shownLength = 48;

/** A typed text cut to a length that a message can carry. */
export const shortened = (text: string): string => {
  const line = text.replace(/\s+/gu, ' ').trim();
  return line.length > shownLength ? `${line.slice(0, shownLength)}…` : line;
};

/** A typed text as messages quote it. */
export const quoted = (text: string): string => `"${shortened(text)}"`;
