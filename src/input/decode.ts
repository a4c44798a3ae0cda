import { type Problem, wholeFile } from './problem.ts';

/** The largest file that is read: far above any job, far below what could hold a machine up. */
export const largest = 2 * 1024 * 1024;

/**
 * Bytes of a file to text: size, UTF-8 and emptiness are settled here, before any parser sees it.
 * A byte order mark is kept out of the text.
 */
export const decode = (bytes: Uint8Array): { readonly text: string } | { readonly problem: Problem } => {
  if (bytes.byteLength > largest) {
    const size = (bytes.byteLength / 1024 / 1024).toFixed(1);
    return {
      problem: wholeFile('file-too-large', `the file has ${size} MiB, and 2 MiB is the most`, 'split it'),
    };
  }
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return { problem: notUtf8(bytes) };
  }
  if (
    /^(?:\s|#[^\n]*)*$/u.test(text.slice(0, 4096)) &&
    text
      .trim()
      .split('\n')
      .every((line) => /^\s*(#.*)?$/u.test(line))
  ) {
    const hint = 'begin with "worksheet: 1"; the examples show a whole file';
    return { problem: wholeFile('file-empty', 'there is nothing in this file', hint) };
  }
  return { text };
};

/** Finds the line of the first byte that is not UTF-8, by decoding line by line. */
const notUtf8 = (bytes: Uint8Array): Problem => {
  const strict = new TextDecoder('utf-8', { fatal: true });
  let line = 1;
  let start = 0;
  for (let end = 0; end <= bytes.length; end += 1) {
    if (end < bytes.length && bytes[end] !== 0x0a) continue;
    const part = bytes.subarray(start, end);
    try {
      strict.decode(part);
    } catch {
      const lineText = new TextDecoder('utf-8').decode(part).replace(/\r$/u, '');
      const column = lineText.indexOf('\ufffd') + 1;
      const hint = 'save it as UTF-8 in the editor';
      return {
        code: 'not-utf8',
        message: 'this is not UTF-8 text',
        hint,
        line,
        column: column || 1,
        lineText,
        file: null,
      };
    }
    line += 1;
    start = end + 1;
  }
  return wholeFile('not-utf8', 'this is not UTF-8 text', 'save it as UTF-8 in the editor');
};
