import { execFileSync } from 'node:child_process';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bashAnswer, plainAnswer, powershellAnswer } from '../../../src/shell/completion/answers.ts';
import { candidate, type Wanted } from '../../../src/shell/completion/candidate.ts';

const words = (...values: string[]): Wanted => ({
  kind: 'words',
  candidates: values.map((value) => candidate(value, 'about')),
});
const files: Wanted = { kind: 'files' };
const folders: Wanted = { kind: 'folders' };
const line = { words: ['cornerwise', ''], kept: 0, quote: '', redirected: false } as const;

describe('for bash', () => {
  it('says how to take the lines, then gives them', () => {
    expect(bashAnswer(words('check', 'packs'), line, null)).toEqual(['words', 'check', 'packs']);
    expect(bashAnswer(words('LF='), line, null)).toEqual(['nospace', 'LF=']);
    expect(bashAnswer(words(), line, null)).toEqual(['words']);
    expect(bashAnswer(folders, line, null)).toEqual(['folders']);
    expect(bashAnswer(files, line, null)).toEqual(['default']);
    expect(bashAnswer(files, line, ['my job.yaml'])).toEqual(['files', 'my job.yaml']);
  });

  it('leaves out what stands on the line, and redirections to bash', () => {
    expect(bashAnswer(words('--format=json'), { ...line, kept: 9 }, null)).toEqual(['words', 'json']);
    expect(bashAnswer(files, { ...line, kept: 2 }, ['a:b.yaml'])).toEqual(['files', 'b.yaml']);
    expect(bashAnswer(words('check'), { ...line, redirected: true }, null)).toEqual(['default']);
  });

  it('quotes all that bash would interpret', () => {
    const texts = fc.array(
      fc.string({ unit: 'binary', minLength: 1 }).filter((text) => !/[\0\n\r\ud800-\udfff]/u.test(text)),
      {
        minLength: 1,
        maxLength: 20,
      },
    );
    fc.assert(
      fc.property(texts, (values) => {
        const [, ...quoted] = bashAnswer(words(...values), line, null);
        const out = execFileSync('bash', ['-c', `LC_ALL=C.UTF-8; printf '%s\\n' ${quoted.join(' ')}`], {
          encoding: 'utf8',
        });
        expect(out).toBe(`${values.join('\n')}\n`);
      }),
      { numRuns: 40 },
    );
  });

  it.each([
    ['"', ['a$b', 'a`b', 'a"b', 'a\\b', 'a!b'], ["a'b", 'a b']],
    ["'", ["a'b"], ['a$b', 'a b']],
  ] as const)('in open %j leaves out what it does not protect', (quote, out, kept) => {
    expect(bashAnswer(words(...out, ...kept), { ...line, quote }, null)).toEqual(['words', ...kept]);
  });
});

describe('for zsh and fish', () => {
  it('gives a value and what it is, or asks for files', () => {
    expect(plainAnswer(words('check'))).toEqual(['check\tabout']);
    expect(plainAnswer(files)).toEqual([':files']);
    expect(plainAnswer(folders)).toEqual([':folders']);
  });

  it('cannot be asked for files by a name', () => {
    expect(plainAnswer(words(':files'))).toEqual([':files\tabout']);
  });
});

describe('for PowerShell', () => {
  it('gives what to put in, what to show, and what it is', () => {
    expect(powershellAnswer(words('check'), null)).toEqual(['check\tcheck\tabout']);
    expect(powershellAnswer({ kind: 'words', candidates: [candidate('job')] }, null)).toEqual([
      'job\tjob\tjob',
    ]);
  });

  it.each([
    ["a'b", "'a''b'"],
    ['a$(b)', "'a$(b)'"],
    ['bench@1.0.0', "'bench@1.0.0'"],
    ['a\u2019b', "'a\u2019\u2019b'"],
    ['--format=json', '--format=json'],
    ['a;b', "'a;b'"],
  ])('quotes %j as %j', (value, quoted) => {
    expect(powershellAnswer(words(value), null)).toEqual([`${quoted}\t${value}\tabout`]);
  });

  it('gives the files that it was given, and leaves the rest to PowerShell', () => {
    expect(powershellAnswer(files, ['my job.yaml'])).toEqual(["'my job.yaml'\tmy job.yaml\tmy job.yaml"]);
    expect(powershellAnswer(files, null)).toEqual([]);
    expect(powershellAnswer(folders, null)).toEqual([]);
  });
});
