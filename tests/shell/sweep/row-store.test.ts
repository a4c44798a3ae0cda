import { existsSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Standing } from '../../../src/core/sweep/row.ts';
import { textStore } from '../../../src/shell/sweep/row-store.ts';
import { openRows } from '../../../src/shell/sweep/rows.ts';

describe('texts of which only some are in memory', () => {
  it('are all there again, whatever their length and the order in which they came', () => {
    const long = fc
      .tuple(fc.string({ unit: 'grapheme' }), fc.integer({ min: 1, max: 300_000 }))
      .map(([text, times]) => [...text].slice(0, 2).join('').repeat(times));
    fc.assert(
      fc.property(fc.array(fc.oneof(fc.string({ unit: 'grapheme' }), long), { maxLength: 12 }), (texts) => {
        const store = textStore(texts.length + 1, 1);
        const order = texts.map((_, index) => (index * 7) % texts.length);
        for (const index of new Set(order)) store.put(index, texts[index] ?? '');
        for (const index of new Set(order)) expect(store.get(index) === texts[index]).toBe(true);
        expect(store.get(texts.length)).toBeNull();
        store.close();
      }),
      { numRuns: 30 },
    );
  });

  it('take a file of their own when there are many, and give it back', () => {
    const store = textStore(40, 2);
    const text = 'é'.repeat(100_000);
    for (let index = 0; index < 40; index += 1) store.put(index, `${index} ${text}`);
    expect(store.get(0)).toBe(`0 ${text}`);
    expect(store.get(39)).toBe(`39 ${text}`);
    expect(store.folder()).not.toBeNull();
    const folder = store.folder() ?? '';
    store.close();
    expect(existsSync(folder)).toBe(false);
  });
});

const standing = (job: string, more: Partial<Standing> = {}): Standing => ({
  job,
  title: 'Sits low',
  vehicle: 'Shuttle 4',
  status: 'open',
  zone: 'Europe/Dublin',
  opened: 0,
  fails: false,
  findings: [],
  holdPoints: [],
  steps: [],
  next: { kind: 'close', id: null, title: 'Close it', minutes: null },
  waitsFor: [],
  ends: [],
  warnings: [],
  ...more,
});

const day = 86_400_000;

describe.each([
  ['kept', 100],
  ['in a store', 0],
])('rows that are %s', (_, few) => {
  const finding = (weight: 'hold' | 'look') =>
    ({ id: 'p/c:LR', state: 'key-on', title: 'T', verdict: 'out', weight, says: '', waived: null }) as const;
  const files = ['a', 'b', 'c', 'd', 'e', 'f', 'g'];
  const filled = () => {
    const rows = openRows(files, 7, few);
    const put = (index: number, one: Standing) =>
      rows.put({ index, kind: 'job', asOf: 30 * day, json: JSON.stringify(one) });
    put(3, standing('clear'));
    put(1, standing('look', { findings: [finding('look')] }));
    put(0, standing('hold', { findings: [finding('hold')], opened: 20 * day }));
    put(4, standing('older hold', { findings: [finding('hold')] }));
    put(5, standing('held', { holdPoints: [{ id: 'r', title: 'R', clear: false, reason: 'x' }] }));
    const ends = {
      kind: 'waiver',
      what: 'p/c',
      at: 31 * day,
      until: '1970-01-31',
      reason: 'on order',
    } as const;
    put(6, standing('ends soon', { ends: [ends] }));
    const problem = { code: 'x', message: 'wrong', line: 1, column: 2, hint: null };
    rows.put({ index: 2, kind: 'problems', problems: [problem, problem] });
    return rows;
  };

  it('come in the order of the files, or the worst first', () => {
    const rows = filled();
    expect([...rows.inOrder()]).toEqual([0, 1, 2, 3, 4, 5, 6]);
    const names = [...rows.worstFirst()].map((index) => rows.get(index)?.job);
    expect(names).toEqual([null, 'older hold', 'hold', 'look', 'held', 'ends soon', 'clear']);
    rows.close();
  });

  it('tell days, what ends, and what to do about a file that cannot be judged', () => {
    const rows = filled();
    expect(rows.get(0)).toMatchObject({ file: 'a', daysOpen: 10, asOf: 30 * day });
    expect(rows.get(6)).toMatchObject({ ends: [{ soon: true, ended: false }] });
    expect(rows.get(2)).toMatchObject({
      file: 'c',
      job: null,
      next: { kind: 'correct-file', title: 'Correct the file' },
    });
    rows.close();
  });

  it('are none where nothing came', () => {
    const rows = openRows(files, 7, few);
    expect([...rows.inOrder()]).toEqual([]);
    expect(rows.get(3)).toBeNull();
    rows.close();
  });
});
