import { describe, expect, it } from 'vitest';
import { decode, largest } from '../../../src/input/yaml/decode.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const latin1 = (text: string): Uint8Array => Uint8Array.from(text, (character) => character.charCodeAt(0));
const problemOf = (given: Uint8Array) => {
  const decoded = decode(given);
  return 'problem' in decoded ? decoded.problem : null;
};

describe('decode', () => {
  it('keeps a byte order mark out of the text', () => {
    expect(decode(bytes('\ufeffworksheet: 1'))).toEqual({ text: 'worksheet: 1' });
  });

  it('takes a file of the largest size and refuses one byte more', () => {
    const text = `a: ${'b'.repeat(largest - 3)}`;
    expect(problemOf(bytes(text))).toBeNull();
    expect(problemOf(bytes(`${text}b`))).toMatchObject({ code: 'file-too-large', line: null });
    expect(problemOf(bytes(`${text}b`))?.message).toContain('2.1 MiB');
  });

  it.each([
    ['', 'nothing'],
    ['\n\n  \n', 'blank lines'],
    ['# one\n  # two\n', 'comments'],
    ['\t\t', 'tabs'],
    ['\ufeff', 'a byte order mark'],
  ])('%j is empty: %s', (text) => {
    expect(problemOf(bytes(text))).toMatchObject({ code: 'file-empty' });
  });

  it('does not take a long rule of hash signs for a riddle', () => {
    expect(problemOf(bytes(`${'#'.repeat(20_000)}\nworksheet: 1`))).toBeNull();
    expect(problemOf(bytes(`${'#'.repeat(20_000)}\n`))).toMatchObject({ code: 'file-empty' });
  });

  it('finds content after many blank lines', () => {
    expect(problemOf(bytes(`${' \n'.repeat(100_000)}worksheet: 1`))).toBeNull();
  });

  it.each([
    ['a byte of another encoding', latin1('a: 1\nair: 8 °C\n'), 2, 8],
    ['one on the first line', latin1('é: 1\n'), 1, 1],
    ['a character that breaks off at the end', bytes('a: é').subarray(0, 4), 1, 4],
    ['one after characters of several bytes', new Uint8Array([...bytes('é€: '), 0xff]), 1, 5],
    ['one after Windows line ends', latin1('a: 1\r\nb: é\r\n'), 2, 4],
  ])('places %s', (_, given, line, column) => {
    expect(problemOf(given)).toMatchObject({ code: 'not-utf8', line, column });
  });

  it('shows the offending line without its end', () => {
    expect(problemOf(latin1('a: 1\r\nb: é!\r\nc: 1'))?.lineText).toBe('b: \ufffd!');
  });

  it('knows UTF-16 and zero bytes for what they are', () => {
    expect(problemOf(new Uint8Array([0xff, 0xfe, 0x61, 0]))).toMatchObject({ code: 'not-utf8', line: null });
    expect(problemOf(bytes('a: 1\nb: \0'))).toMatchObject({ code: 'not-utf8', line: 2, column: 4 });
  });
});
