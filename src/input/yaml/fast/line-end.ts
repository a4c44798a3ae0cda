import { carriageReturn, hash, isLineEnd, newline, type Scan, space } from './scan.ts';

/** Moves behind the end of this line, on which a character of this code stands, whatever follows it. */
const skipLine = (scan: Scan, code: number): void => {
  if (code === newline) scan.at += 1;
  else if (code === carriageReturn) scan.at += 2;
  else scan.at = scan.text.indexOf('\n', scan.at) + 1;
};

/** Moves behind blanks, a comment and the end of the line; false where something else stands there. */
export const endLine = (scan: Scan): boolean => {
  const { text } = scan;
  const from = scan.at;
  while (text.charCodeAt(scan.at) === space) scan.at += 1;
  const code = text.charCodeAt(scan.at);
  if (!isLineEnd(code) && (code !== hash || scan.at === from)) return false;
  skipLine(scan, code);
  return true;
};

/** What was read so far belongs to the value read last. */
const takeAfter = (scan: Scan): void => {
  scan.after = Math.min(scan.at, scan.end);
};

/**
 * Moves to the next content and notes its column. Comments on the way that are indented further than `indent`
 * belong to the value before them, up to the first that is not.
 */
export const toContent = (scan: Scan, indent: number): void => {
  const { text } = scan;
  takeAfter(scan);
  scan.loose = -1;
  while (scan.at < text.length) {
    const start = scan.at;
    while (text.charCodeAt(scan.at) === space) scan.at += 1;
    const code = text.charCodeAt(scan.at);
    const column = scan.at - start;
    if (code !== hash && !isLineEnd(code)) {
      scan.column = column;
      return;
    }
    skipLine(scan, code);
    if (code !== hash) continue;
    if (scan.loose < 0 && column > indent) takeAfter(scan);
    else scan.loose = Math.max(scan.loose, column);
  }
  scan.column = -1;
};

/**
 * Where a block that ends before the next content ends. Comments that line up with it belong to it and not to what
 * follows, so that what holds it ends behind them.
 */
export const closeBlock = (scan: Scan, indent: number): number => {
  const end = scan.after;
  if (indent > 0 && scan.loose >= indent) {
    takeAfter(scan);
    scan.loose = -1;
  }
  scan.depth -= 1;
  return end;
};
