import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LocatedFlaw, locate } from '../../../src/input/problem.ts';
import { makeSink } from '../../../src/input/sink.ts';
import { linesOf } from '../../../src/input/yaml/lines.ts';

const flaw = (at: number, code: LocatedFlaw['code'] = 'wrong-value', message = 'm'): LocatedFlaw => ({
  code,
  at,
  message,
  hint: null,
});

describe('locate', () => {
  it('counts lines and columns from one, whatever ends the lines', () => {
    for (const end of ['\n', '\r\n', '\r']) {
      const text = `ab${end}cde${end}f`;
      const [first, second, third] = locate(text, [flaw(0), flaw(text.indexOf('d')), flaw(text.length)]);
      expect(first).toMatchObject({ line: 1, column: 1, lineText: 'ab' });
      expect(second).toMatchObject({ line: 2, column: 2, lineText: 'cde' });
      expect(third).toMatchObject({ line: 3, column: 2, lineText: 'f' });
    }
  });

  it('tells what stands first in the text first', () => {
    expect(locate('abc', [flaw(2), flaw(0), flaw(1)]).map(({ column }) => column)).toEqual([1, 2, 3]);
  });

  it('of two kinds at one place the first found speaks, of one kind all do', () => {
    const flaws = [flaw(0, 'tag'), flaw(0, 'wrong-type'), flaw(0, 'tag', 'n'), flaw(0, 'tag')];
    expect(locate('a', flaws).map(({ code, message }) => `${code} ${message}`)).toEqual(['tag m', 'tag n']);
  });

  it('what is missing is told beside what is wrong', () => {
    const flaws = [flaw(0, 'missing-key', 'a'), flaw(0, 'unknown-key'), flaw(0, 'missing-key', 'b')];
    expect(locate('a', flaws)).toHaveLength(3);
  });
});

describe('a sink', () => {
  it('takes more flaws at once than a call may have arguments', () => {
    const sink = makeSink();
    sink.addAll(Array.from({ length: 500_000 }, (_, at) => flaw(at)));
    expect(sink.flaws).toHaveLength(500_000);
  });
});

describe('linesOf', () => {
  it('finds the line of any offset as counting does', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('a', 'b', '\n', '\r\n')), fc.nat(), (parts, pick) => {
        const text = parts.join('');
        const at = text.length === 0 ? 0 : pick % text.length;
        const before = text.slice(0, at);
        const lines = linesOf(text);
        expect(lines.lineOf(at)).toBe(before.split('\n').length);
        expect(lines.startOf(lines.lineOf(at))).toBe(before.lastIndexOf('\n') + 1);
        expect(lines.textOf(lines.lineOf(at))).not.toMatch(/[\r\n]/u);
      }),
    );
  });
});
