import { type Problem, wholeFile } from '../problem.ts';

/** The largest file that is read: far above any job, far below what could hold a machine up. */
export const largest = 2 * 1024 * 1024;

const strict = new TextDecoder('utf-8', { fatal: true });

/**
 * A file above the limit, told by its size.
 *
 * @param size in bytes; null where nobody knows how much more would have come
 */
export const tooLarge = (size: number | null): Problem => {
  // Rounded up, so that a file just over the limit is never said to be of that size.
  const told =
    size === null
      ? 'more than 2 MiB came in'
      : `the file is ${(Math.ceil((size / 1024 / 1024) * 10) / 10).toFixed(1)} MiB`;
  const hint = 'a job is a few pages; check that this is the file you meant';
  return wholeFile('file-too-large', `${told}, and the limit is 2 MiB`, hint);
};

/**
 * Bytes of a file to text: size, UTF-8 and emptiness are settled here, before any parser sees it.
 * A byte order mark is kept out of the text.
 */
export const decode = (bytes: Uint8Array): { readonly text: string } | { readonly problem: Problem } => {
  if (bytes.byteLength > largest) return { problem: tooLarge(bytes.byteLength) };
  if (isUtf16(bytes)) return { problem: wholeFile('not-utf8', 'this is UTF-16 text, not UTF-8', utf8Hint) };
  let text: string;
  try {
    text = strict.decode(bytes);
  } catch {
    return { problem: badByte(bytes, validLength(bytes), 'this is not UTF-8 text') };
  }
  const zero = bytes.indexOf(0);
  if (zero >= 0) return { problem: badByte(bytes, zero, 'a zero byte stands here; this is not a text file') };
  // Something other than blanks and comments, line by line: a pattern over the whole text could take for ever.
  if (!/^[^\S\n]*[^\s#]/mu.test(text)) {
    return { problem: wholeFile('file-empty', 'there is nothing in this file', emptyHint) };
  }
  return { text };
};

const utf8Hint = 'save the file as UTF-8 in the editor';

/** What to do about a file without content. */
export const emptyHint = 'begin with "worksheet: 1"; the examples show a whole file';

const isUtf16 = ([first, second]: Uint8Array): boolean =>
  (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);

/** Whether bytes are the beginning of a UTF-8 text, which may break off within a character. */
const beginsWell = (bytes: Uint8Array): boolean => {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes, { stream: true });
    return true;
  } catch {
    return false;
  }
};

/** How many bytes can be read before the first that cannot. */
const validLength = (bytes: Uint8Array): number => {
  let good = 0;
  let bad = bytes.length + 1;
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (beginsWell(bytes.subarray(0, middle))) good = middle;
    else bad = middle;
  }
  return Math.min(good, bytes.length - 1);
};

/** Points at a byte that has no business in a text. */
const badByte = (bytes: Uint8Array, at: number, message: string): Problem => {
  const start = bytes.subarray(0, at).lastIndexOf(0x0a) + 1;
  const newline = bytes.indexOf(0x0a, at);
  const loose = (part: Uint8Array): string => new TextDecoder('utf-8').decode(part);
  let line = 1;
  for (let index = 0; index < start; index += 1) if (bytes[index] === 0x0a) line += 1;
  return {
    code: 'not-utf8',
    message,
    hint: utf8Hint,
    line,
    // A character that breaks off before the bad byte is not counted.
    column: loose(bytes.subarray(start, at)).replace(/\ufffd$/u, '').length + 1,
    lineText: loose(bytes.subarray(start, newline < 0 ? bytes.length : newline)).replace(/\r$/u, ''),
    file: null,
  };
};
