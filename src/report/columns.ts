/** Characters that take two columns on a terminal: East Asian wide and full-width ones (UAX #11), and pictures. */
const wide =
  /[\u1100-\u115f\u2329\u232a\u2e80-\u303e\u3041-\ua4cf\ua960-\ua97f\uac00-\ud7a3\uf900-\ufaff\ufe10-\ufe19\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{16fe0}-\u{18dff}\u{1aff0}-\u{1b2ff}\u{20000}-\u{3fffd}\p{Emoji_Presentation}]/u;
/** Those that take none: marks on the one before, and joiners. */
const none = /[\p{Mn}\p{Me}\p{Cf}]/u;
const simple = /^[\u0020-\u007e\u00a0-\u02ff\u2010-\u2027]*$/u;

const widthOf = (character: string): number => {
  if (simple.test(character)) return 1;
  if (none.test(character)) return 0;
  return wide.test(character) ? 2 : 1;
};

/** How many columns a text on one line takes on a terminal. */
export const displayWidth = (text: string): number => {
  if (simple.test(text)) return text.length;
  let width = 0;
  for (const character of text) width += widthOf(character);
  return width;
};

/** As much of a text's beginning as fits into so many columns. */
const beginning = (text: string, width: number): string => {
  let used = 0;
  let end = 0;
  for (const character of text) {
    used += widthOf(character);
    if (used > width) break;
    end += character.length;
  }
  return text.slice(0, end);
};

/** A text cut to so many columns, with a mark where something was cut off. */
export const cut = (text: string, width: number, mark: string): string =>
  displayWidth(text) <= width ? text : `${beginning(text, width - mark.length).trimEnd()}${mark}`;

/** The same filled up with blanks; they stand before it where it is to be flush right. */
export const cell = (text: string, width: number, mark: string, right = false): string => {
  const shown = cut(text, width, mark);
  const blanks = ' '.repeat(Math.max(0, width - displayWidth(shown)));
  return right ? blanks + shown : shown + blanks;
};

/** The parts of a word that is longer than a line. */
const parts = (word: string, width: number): string[] => {
  const found: string[] = [];
  for (let rest = word; rest !== ''; ) {
    const part = beginning(rest, width) || [...rest].slice(0, 1).join('');
    found.push(part);
    rest = rest.slice(part.length);
  }
  return found;
};

/**
 * Wraps a text between words so that no line is wider than `width` columns, whatever it holds: a word that is longer
 * than a line is broken. The first line is indented by `first`, the others by `rest`.
 */
export const fold = (text: string, width: number, first = 0, rest = first): string[] => {
  const lines: string[] = [];
  let line = ' '.repeat(first);
  let used = first;
  let empty = true;
  const room = width - Math.max(first, rest);
  for (const word of text
    .split(' ')
    .flatMap((one) => (displayWidth(one) > room ? parts(one, room) : [one]))) {
    const size = displayWidth(word);
    if (!empty && used + 1 + size > width) {
      lines.push(line);
      line = ' '.repeat(rest) + word;
      used = rest + size;
    } else {
      line += empty ? word : ` ${word}`;
      used += size + (empty ? 0 : 1);
    }
    empty = false;
  }
  return [...lines, line].map((one) => one.trimEnd());
};
