import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  begun,
  bytesOf,
  type Cause,
  changeBefore,
  grown,
  type History,
  linesChanged,
  stepsBack,
  unrolled,
  upToNow,
} from '../../../src/shell/save/history.ts';

const at = '2026-03-02T12:00:00.000Z';
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const text = (found: Uint8Array | null): string | null => found && new TextDecoder().decode(found);
const by = (what: string, as: number | null = null): Cause => ({ at, by: 'log', what, as });
const undone = (as: number): Cause => ({ at, by: 'undo', what: 'took back', as });

/** A history of these texts, each written by a command. */
const of = (first: string, ...more: readonly string[]): History =>
  more.reduce((history, one) => grown(history, bytes(one), by(one)), begun(bytes(first), at));

const texts = (history: History): (string | null)[] =>
  [...unrolled(history)].map((one) => text(one.bytes)).reverse();
const takenBack = (history: History): string[] =>
  [...stepsBack(history)].map(({ change, to }) => `${change.what} to ${to.number}`);

describe('a history', () => {
  it('keeps every version to the byte, whatever the bytes are', () => {
    const any = fc.array(fc.uint8Array({ maxLength: 40 }), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(any, (all) => {
        const [first = new Uint8Array(), ...more] = all;
        const history = more.reduce((done, one) => grown(done, one, by('x')), begun(first, at));
        for (const [index, one] of all.entries())
          expect(Buffer.from(bytesOf(history, index + 1) ?? [])).toEqual(Buffer.from(one));
      }),
    );
  });

  it('keeps the newest hundred, under their own numbers', () => {
    const all = Array.from({ length: 130 }, (_, index) => `version ${index + 1}`);
    const [first = '', ...more] = all;
    const history = of(first, ...more);
    expect(texts(history)).toEqual(all.slice(-100));
    expect(history.versions[0]).toMatchObject({ number: 31, what: 'version 31', back: null });
    expect(bytesOf(history, 30)).toBeNull();
    expect(takenBack(history)).toHaveLength(99);
  });

  it('keeps less of them where they are large', () => {
    const large = (letter: string): string => letter.repeat(1.5e6);
    const history = of(large('a'), large('b'), large('c'), large('d'), large('e'));
    expect(history.versions.map(({ number }) => number)).toEqual([3, 4, 5]);
    expect(text(bytesOf(history, 3))).toBe(large('c'));
  });

  it('ends where a way leads elsewhere', () => {
    const history = of('a', 'ab', 'abc');
    const versions = history.versions.map((one) =>
      one.number === 3 && one.back ? { ...one, back: { ...one.back, was: bytes('x') } } : one,
    );
    expect(texts({ ...history, versions })).toEqual(['abc']);
    expect(texts({ ...history, newest: bytes('abd') })).toEqual([]);
  });
});

describe('the file as it is now', () => {
  it('is the newest version, or becomes one', () => {
    const history = of('a', 'ab');
    expect(upToNow(history, bytes('ab'), at)).toBe(history);
    const edited = upToNow(history, bytes('abX'), at);
    expect(edited.versions.at(-1)).toMatchObject({ number: 3, by: null, what: 'edited by other hands' });
    expect(texts(edited)).toEqual(['a', 'ab', 'abX']);
  });

  it('is an earlier version again where a command was killed, the latest of those', () => {
    const history = of('a', 'b', 'a', 'c');
    expect(upToNow(history, bytes('a'), at).versions.at(-1)).toMatchObject({ number: 5, as: 3 });
  });
});

describe('changes that can be taken back', () => {
  it('are those of commands, the last first', () => {
    expect(takenBack(of('a'))).toEqual([]);
    expect(takenBack(of('a', 'b', 'c'))).toEqual(['c to 2', 'b to 1']);
  });

  it('are passed over where they were taken back already', () => {
    const once = grown(of('a', 'b', 'c'), bytes('b'), undone(2));
    expect(takenBack(once)).toEqual(['b to 1']);
    const twice = grown(once, bytes('a'), undone(1));
    expect(takenBack(twice)).toEqual([]);
    expect(takenBack(grown(twice, bytes('d'), by('d')))).toEqual(['d to 5']);
    const anew = grown(once, bytes('d'), by('d'));
    expect(takenBack(anew)).toEqual(['d to 4', 'b to 1']);
  });

  it('end where other hands came in between', () => {
    const edited = upToNow(of('a', 'b'), bytes('bX'), at);
    expect(takenBack(edited)).toEqual([]);
    expect(changeBefore(edited)?.what).toBe('b');
    const more = grown(edited, bytes('bXc'), by('c'));
    expect(takenBack(more)).toEqual(['c to 3']);
    expect(changeBefore(more)).toBeNull();
    expect(changeBefore(of('a'))).toBeNull();
  });

  it('go on where a version was brought back, which is a change like another', () => {
    const back = grown(of('a', 'b', 'c'), bytes('a'), {
      at,
      by: 'undo',
      what: 'back to version 1',
      as: null,
    });
    expect(takenBack(back)).toEqual(['back to version 1 to 3', 'c to 2', 'b to 1']);
  });
});

describe('the lines that came and went', () => {
  const changed = (before: string, after: string) => {
    const { back } = of(before, after).versions[1] ?? {};
    return back && linesChanged(bytes(after), back);
  };

  it.each([
    ['one at the end', 'a\nb\n', 'a\nb\nc\n', [1, 0]],
    ['one at the beginning', 'b\n', 'a\nb\n', [1, 0]],
    ['one that is gone', 'a\nb\nc\n', 'a\nc\n', [0, 1]],
    ['part of one', 'a: 12\nb: 3\n', 'a: 13\nb: 3\n', [1, 1]],
    ['two far from each other', 'a\nb\nc\nd\n', 'A\nb\nc\nD\n', [2, 2]],
    ['one of several that are the same', 'a\na\na\n', 'a\na\n', [0, 1]],
    ['no end of line', 'a', 'ab', [1, 1]],
    ['all', 'a\nb\n', '', [2, 0].reverse()],
  ])('%s', (_, before, after, lines) => {
    expect(changed(before, after)).toEqual(lines);
  });
});
