import { describe, expect, it } from 'vitest';
import { typedText } from '../../../src/input/typed/typed-text.ts';
import { typedWord } from '../../../src/input/typed/typed-word.ts';
import { faultOf, understood } from '../../support/typing.ts';

const words = ['key-on', 'no-self-test', '12 V'] as const;

describe('a word of a closed list', () => {
  it.each([
    ['key-on', 'key-on'],
    ['KEY ON', 'key-on'],
    ['keyon', 'key-on'],
    ['no_self_test', 'no-self-test'],
    ['12v', '12 V'],
  ])('%s is %s', (typed, meant) => {
    expect(understood(typedWord(typed, words, 'a word'))).toBe(meant);
  });

  it.each([
    ['kye-on', '"kye-on" is not a word', 'did you mean key-on?'],
    ['sloped', '"sloped" is not a word', 'it can be key-on, no-self-test, 12 V'],
    ['', 'nothing is typed here', 'it can be key-on, no-self-test, 12 V'],
    [' ', 'nothing is typed here', 'it can be key-on, no-self-test, 12 V'],
  ])('%j is refused with what to write', (typed, message, hint) => {
    expect(faultOf(typedWord(typed, words, 'a word'))).toMatchObject({ message, hint });
  });
});

describe('a free text', () => {
  it.each([
    ['  a: b # c "q" \u{1f642}  ', 'a: b # c "q" \u{1f642}'],
    ['two\r\nlines', 'two\nlines'],
    ['a\ttab', 'a\ttab'],
  ])('%j is kept as %j', (typed, kept) => {
    expect(understood(typedText(typed))).toBe(kept);
  });

  it.each([
    ['', 'nothing is written here'],
    [' \n ', 'nothing is written here'],
    ['a\u0000b', 'it holds the invisible character U+0000'],
    ['a\rb', 'it holds the invisible character U+000D'],
    ['a\u001b[0mb', 'it holds the invisible character U+001B'],
    ['a\u2028b', 'it holds the invisible character U+2028'],
    ['a\ud800b', 'it holds the invisible character U+D800'],
    ['abcdef', 'this has 6 characters, and the limit is 5'],
  ])('%j is refused: %s', (typed, message) => {
    expect(faultOf(typedText(typed, '--note', 5))).toMatchObject({ typed: '--note', message });
  });
});
