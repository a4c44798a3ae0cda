import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { preparePacks } from '../../src/core/prepare/prepared-packs.ts';
import { openJob, readJob } from '../../src/input/job/read-job.ts';
import { readShop } from '../../src/input/job/read-shop.ts';
import { readPack } from '../../src/input/pack/read-pack.ts';
import type { Problem } from '../../src/input/problem.ts';
import { decode } from '../../src/input/yaml/decode.ts';
import { bench, jobProblems, soundJob } from './problems-of.ts';

const around = {
  prepared: preparePacks([bench]),
  shop: null,
  elsewhere: new Map<string, string>(),
  sameDefinition: () => true,
};
const read = (text: string) => readJob(openJob(text), around);

/** A problem stands at a character of the text, or just behind the last one of its line. */
const expectInside = (text: string, problems: readonly Problem[]): void => {
  const lines = text.split(/\r\n|\n|\r/u);
  for (const { line, column, lineText, message } of problems) {
    if (line === null || column === null) throw new Error(`no place: ${message}`);
    expect(line).toBeGreaterThanOrEqual(1);
    expect(line).toBeLessThanOrEqual(lines.length);
    expect(lineText).toBe(lines[line - 1]);
    expect(column).toBeGreaterThanOrEqual(1);
    expect(column).toBeLessThanOrEqual((lineText ?? '').length + 1);
    expect(message).not.toBe('');
  }
};

/** Text made of what YAML and jobs are made of, so that much of it gets past the parser. */
const yamlish = fc
  .array(
    fc.constantFrom(
      ...[
        'worksheet',
        'vehicle',
        'snapshots',
        'readings',
        'position',
        'LF',
        'log',
        'costs',
        'lines',
        'codes',
      ],
      ...[
        ': ',
        ':',
        '- ',
        '\n',
        '\n  ',
        '\n    ',
        '{',
        '}',
        '[',
        ']',
        ', ',
        '"',
        "'",
        '|',
        '>',
        '#',
        '&a',
        '*a',
        '!t',
      ],
      ...[
        '2.48 V',
        '2,48',
        '012',
        '1e999',
        '.nan',
        '~',
        'null',
        'true',
        '2026-03-02T08:15',
        '\t',
        '\r\n',
        '---\n',
        '? ',
      ],
      ...['__proto__', 'x-a', '\u202e', '\u0000', '°'],
    ),
    { maxLength: 40 },
  )
  .map((parts) => parts.join(''));

describe('any text', () => {
  it.each([
    ['of YAML’s own pieces', yamlish],
    ['of letters and signs', fc.string({ unit: 'binary', maxLength: 200 })],
  ])('%s is read into a job or at least one problem', (_, texts) => {
    fc.assert(
      fc.property(texts, (text) => {
        const { job, problems } = read(text);
        expect(job === null).toBe(problems.length > 0);
        expectInside(text, problems);
      }),
      { numRuns: 400 },
    );
  });

  it('as a pack or as a shop file never throws either', () => {
    fc.assert(
      fc.property(yamlish, (text) => {
        for (const head of ['', 'pack: p\nversion: 1.0.0\ntitle: t\n']) {
          const { pack, problems } = readPack(head + text, 'p.yaml', '');
          expect(pack === null).toBe(problems.length > 0);
          expectInside(head + text, problems);
        }
        const { shop, problems } = readShop(text, 'cornerwise.yaml');
        expect(shop === null).toBe(problems.length > 0);
        expectInside(text, problems);
      }),
    );
  });

  it('bytes of any kind are text or one problem', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), (bytes) => {
        const decoded = decode(bytes);
        if ('problem' in decoded) expect(decoded.problem.message).not.toBe('');
        else expect(new TextEncoder().encode(decoded.text).length).toBeGreaterThan(0);
      }),
    );
  });
});

const lines = soundJob.split('\n');
const position = fc.nat({ max: soundJob.length - 1 });
const row = fc.nat({ max: lines.length - 1 });
const character = fc.constantFrom(...'{}[]:,-#&*!|>"\'%@`?~ \t\n0a\u202e\u0000');

const withoutLine = row.map((at) => lines.toSpliced(at, 1).join('\n'));
const withLineTwice = row.map((at) => lines.toSpliced(at, 0, lines[at] ?? '').join('\n'));
const withLineMoved = fc.tuple(row, row).map(([from, to]) =>
  lines
    .toSpliced(from, 1)
    .toSpliced(to, 0, lines[from] ?? '')
    .join('\n'),
);
const withLineIndented = row.map((at) => lines.toSpliced(at, 1, ` ${lines[at]}`).join('\n'));
const withoutCharacter = position.map((at) => soundJob.slice(0, at) + soundJob.slice(at + 1));
const withCharacter = fc
  .tuple(position, character)
  .map(([at, one]) => soundJob.slice(0, at) + one + soundJob.slice(at));
const withOther = fc
  .tuple(position, character)
  .map(([at, one]) => soundJob.slice(0, at) + one + soundJob.slice(at + 1));
const cut = position.map((at) => soundJob.slice(0, at));
const values = [...soundJob.matchAll(/: ([^\n{}[\],]+)/gu)].map((match) => match.index + 2);
const withValue = fc
  .tuple(
    fc.constantFrom(...values),
    fc.constantFrom(
      '',
      '~',
      '1e999',
      '012',
      '[]',
      '{}',
      '{a: b}',
      '"',
      'true',
      '0x1F',
      '2,48',
      '-1',
      '2026-02-30',
      '*a',
    ),
  )
  .map(([at, value]) => soundJob.slice(0, at) + value + soundJob.slice(at).replace(/^[^\n{}[\],]+/u, ''));

describe('the sound job, bent', () => {
  it.each([
    ['a line less', withoutLine],
    ['a line twice', withLineTwice],
    ['a line elsewhere', withLineMoved],
    ['a line further right', withLineIndented],
    ['a character less', withoutCharacter],
    ['a character more', withCharacter],
    ['another character', withOther],
    ['the end missing', cut],
    ['another value', withValue],
  ])('%s: it is read or every problem has its place', (_, texts) => {
    fc.assert(
      fc.property(texts, (text) => {
        const { job, problems } = read(text);
        expect(job === null).toBe(problems.length > 0);
        expectInside(text, problems);
      }),
      { numRuns: 200 },
    );
  });

  it('gives the same problems each time', () => {
    fc.assert(
      fc.property(withCharacter, (text) => {
        expect(jobProblems(text)).toEqual(jobProblems(text));
      }),
      { numRuns: 50 },
    );
  });
});
