import { describe, expect, it } from 'vitest';
import { readBashLine } from '../../../src/shell/completion/bash-line.ts';

const breaks = ' \t\n"\'@><=;|&(:';

describe('a line of bash, up to the cursor', () => {
  it.each([
    ['cornerwise ', ['cornerwise', '']],
    ['cornerwise  check\ta', ['cornerwise', 'check', 'a']],
    ['cornerwise check my\\ job', ['cornerwise', 'check', 'my job']],
    ['cornerwise check "my job" \'a\\b\' ', ['cornerwise', 'check', 'my job', 'a\\b', '']],
    ['cornerwise check "a\\"b\\c" x', ['cornerwise', 'check', 'a"b\\c', 'x']],
    ['cornerwise check "" x', ['cornerwise', 'check', '', 'x']],
    ['cornerwise check a\\', ['cornerwise', 'check', 'a']],
    ['cd jobs; cornerwise ch', ['cornerwise', 'ch']],
    ['cornerwise check > out.txt 2>err.txt a', ['cornerwise', 'check', 'a']],
    ['cornerwise check 2>err.txt a', ['cornerwise', 'check', 'a']],
  ])('%j has the words %j', (line, words) => {
    expect(readBashLine(line, breaks)).toMatchObject({ words, redirected: false });
  });

  it.each([
    ['cornerwise check a', 0, ''],
    ['cornerwise check --format=nd', 9, ''],
    ['cornerwise add f rest code=C1A21:st', 11, ''],
    ['cornerwise packs show bench@1', 6, ''],
    ['cornerwise check a\\=b', 0, ''],
    ['cornerwise check "a=b', 0, '"'],
    ["cornerwise check --format='n", 9, "'"],
    ['cornerwise check --format=n x', 0, ''],
  ])('%j keeps %i characters, in quotes %j', (line, kept, quote) => {
    expect(readBashLine(line, breaks)).toMatchObject({ kept, quote });
  });

  it('knows where a redirection goes', () => {
    expect(readBashLine('cornerwise check a > ou', breaks)).toMatchObject({ redirected: true });
    expect(readBashLine('cornerwise check a 2>', breaks)).toMatchObject({
      redirected: true,
      words: ['cornerwise', 'check', 'a', ''],
    });
  });

  it('breaks only where this bash does', () => {
    expect(readBashLine('cornerwise packs show bench@1', ' =:').kept).toBe(0);
  });
});
