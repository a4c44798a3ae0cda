import { describe, expect, it } from 'vitest';
import { append, entry, put, shownEntry, textAfter } from './editing.ts';

const added = `  - ${shownEntry}`;
const log = (text: string): string => textAfter(text, append(['log'], entry));
const withNote = (note: string): string => `log:\n  - at: x\n    note: ${note}`;
const addedLines = '  - at: 2026-03-02T11:00\n    did: noted';

describe('behind a text on lines of its own', () => {
  it.each(['|', '|-', '|+', '>', '>-', '>+', '|2', '|1+', '>2-', '| # c'])('after %s', (mark) => {
    const before = withNote(`${mark}\n      one\n      two`);
    expect(log(`${before}\njob: J1\n`)).toBe(`${before}\n${addedLines}\njob: J1\n`);
    expect(log(`${before}\n`)).toBe(`${before}\n${addedLines}\n`);
  });

  it.each(['|', '|-', '>', '>-', '|+', '>+'])('after %s without a line end, which stays missing', (mark) => {
    const before = withNote(`${mark}\n      one`);
    expect(log(before)).toBe(`${before}\n${addedLines}`);
  });

  it.each(['|', '|-', '>', '>-'])('after %s before blank lines that are not part of it', (mark) => {
    const before = withNote(`${mark}\n      one\n`);
    expect(log(`${before}\n\njob: J1\n`)).toBe(`${before}${addedLines}\n\n\njob: J1\n`);
  });

  it.each(['|+', '>+'])('after %s behind blank lines that are part of it', (mark) => {
    const before = withNote(`${mark}\n      one\n\n\n`);
    expect(log(`${before}job: J1\n`)).toBe(`${before}${addedLines}\njob: J1\n`);
  });

  it('never puts a blank line where it would become part of the text', () => {
    const before = `log:\n  - at: w\n\n  - at: x\n    note: |+\n      one\n`;
    expect(log(before)).toBe(`${before}${addedLines}\n`);
    const keys = 'worksheet: 1\n\nx-own: |+\n  one\n\n';
    expect(textAfter(keys, put(['x-more'], 'a'))).toBe(`${keys}x-more: a\n`);
  });

  it('keeps blank lines between items that end with one', () => {
    const before = 'log:\n  - at: w\n    note: |\n      one\n\n  - at: x\n    note: |\n      one\n\n';
    expect(log(`${before}job: J1\n`)).toBe(`${before}${addedLines}\n\njob: J1\n`);
  });

  it('keeps a last line of blanks that is part of it', () => {
    const before = `${withNote('|')}\n      one\n         \n`;
    expect(log(`${before}job: J1\n`)).toBe(`${before}${addedLines}\njob: J1\n`);
  });

  it('that is empty', () => {
    expect(log(`${withNote('|')}\n\njob: J1\n`)).toBe(`${withNote('|')}\n${addedLines}\n\njob: J1\n`);
  });

  it('leaves its comments below it', () => {
    const before = `${withNote('|')}\n      one\n`;
    expect(log(`${before}  # two\n# three\njob: J1\n`)).toBe(
      `${before}  # two\n${addedLines}\n# three\njob: J1\n`,
    );
  });

  it('in a file with the line ends of Windows', () => {
    const before = `${withNote('>-')}\n      one\n      two\n`.replaceAll('\n', '\r\n');
    expect(log(before)).toBe(`${before}${`${addedLines}\n`.replaceAll('\n', '\r\n')}`);
  });
});

describe('behind a text over several lines', () => {
  it.each([
    ['plain', 'one\n      two'],
    ['in quotes', '"one\n      two"'],
    ['in single quotes', "'one\n\n      two'"],
  ])('%s', (_, note) => {
    expect(log(`${withNote(note)} # c\njob: J1\n`)).toBe(`${withNote(note)} # c\n${addedLines}\njob: J1\n`);
  });
});

describe('the end of a file', () => {
  it.each([
    ['with a line end', '\n', `\n${added}\n`],
    ['without', '', `\n${added}`],
    ['with blanks', '   ', `   \n${added}`],
    ['with blank lines', '\n\n\n', `\n${added}\n\n\n`],
    ['with a comment', '\n# the end\n', `\n${added}\n# the end\n`],
    ['with a comment without a line end', ' # the end', ` # the end\n${added}`],
    ['with the mark of an end', '\n...\n# out\n', `\n${added}\n...\n# out\n`],
    ['with a carriage return', '\r\n', `\n${added}\r\n`],
  ])('%s', (_, end, is) => {
    expect(log(`log:\n  - {at: x}${end}`)).toBe(`log:\n  - {at: x}${is}`);
  });
});

describe('the beginning of a file', () => {
  it.each(['---\n', '--- # a job\n', '# a job\n---\n', '\n\n', '# a job\n\n', '---\n\n# a job\n'])(
    '%j stays',
    (head) => {
      expect(log(`${head}log:\n  - {at: x}\n`)).toBe(`${head}log:\n  - {at: x}\n${added}\n`);
      expect(log(`${head}worksheet: 1\n`)).toBe(`${head}worksheet: 1\nlog:\n${added}\n`);
    },
  );

  it('stays where the file is in braces behind its mark', () => {
    expect(log('--- {worksheet: 1}\n...\n')).toBe(`--- {worksheet: 1, log: [${shownEntry}]}\n...\n`);
  });
});

describe('the line ends of Windows', () => {
  it('are used for what is new', () => {
    const before = 'worksheet: 1\r\nlog:\r\n  - {at: x} # c\r\n  # d\r\n\r\njob: J1\r\n';
    expect(log(before)).toBe(before.replace('# d\r\n', `# d\r\n${added}\r\n`));
    expect(log('worksheet: 1\r\njob: J1')).toBe(`worksheet: 1\r\njob: J1\r\nlog:\r\n${added}`);
  });
});
