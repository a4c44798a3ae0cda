/** The line ending that a text uses near an offset: that of the line before it, else of the first line, else Unix's. */
export const lineEnding = (text: string, at: number): string => {
  const newline = text.lastIndexOf('\n', Math.max(0, at - 1));
  const found = newline >= 0 ? newline : text.indexOf('\n');
  return found > 0 && text[found - 1] === '\r' ? '\r\n' : '\n';
};

/** Where the line of an offset ends, before its line ending. */
export const endOfLine = (text: string, at: number): number => {
  const newline = text.indexOf('\n', at);
  if (newline < 0) return text.length;
  return newline > at && text[newline - 1] === '\r' ? newline - 1 : newline;
};

/** Where the line of an offset begins. */
export const startOfLine = (text: string, at: number): number =>
  at === 0 ? 0 : text.lastIndexOf('\n', at - 1) + 1;

/** Where the line after that of an offset begins, or null where there is none. */
export const nextLine = (text: string, at: number): number | null => {
  const newline = text.indexOf('\n', at);
  return newline < 0 || newline + 1 > text.length ? null : newline + 1;
};
