import { hash, isLineEnd, type Scan, space } from './scan.ts';

/** Moves behind the end of this line, whatever still stands on it. */
const skipLine = (scan: Scan): void => {
  const end = scan.text.indexOf('\n', scan.at);
  scan.at = end < 0 ? scan.text.length : end + 1;
};

/** Moves behind blanks, a comment and the end of the line; false where something else stands there. */
export const endLine = (scan: Scan): boolean => {
  const { text } = scan;
  const from = scan.at;
  while (text.charCodeAt(scan.at) === space) scan.at += 1;
  const code = text.charCodeAt(scan.at);
  if (!isLineEnd(code) && (code !== hash || scan.at === from)) return false;
  skipLine(scan);
  return true;
};

/**
 * Moves to the next content and notes its column. Comments on the way that are indented further than `indent`
 * belong to the value before them, up to the first that is not.
 */
export const toContent = (scan: Scan, indent: number): void => {
  const { text } = scan;
  scan.after = scan.at;
  scan.loose = -1;
  for (;;) {
    const start = scan.at;
    while (text.charCodeAt(scan.at) === space) scan.at += 1;
    const code = text.charCodeAt(scan.at);
    if (code !== hash && !isLineEnd(code)) {
      scan.column = scan.at - start;
      return;
    }
    const column = scan.at - start;
    skipLine(scan);
    if (code === hash) {
      if (scan.loose < 0 && column > indent) scan.after = scan.at;
      else scan.loose = Math.max(scan.loose, column);
    }
    if (scan.at >= text.length) break;
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
    scan.after = scan.at;
    scan.loose = -1;
  }
  scan.depth -= 1;
  return end;
};
