import { describe, expect, it } from 'vitest';
import { text } from '../../../src/input/edit/value.ts';
import { append, entry, put, shownEntry, textAfter } from './editing.ts';

const add = (before: string): string => textAfter(before, append(['x-a'], text('new')));
const addTwo = (before: string): string => textAfter(before, append(['x-a'], text('new'), text('too')));

describe('an item in brackets', () => {
  it.each([
    ['on one line', '[a, b]', '[a, b, new]'],
    ['with blanks inside', '[ a, b ]', '[ a, b, new ]'],
    ['without blanks', '["a","b"]', '["a","b", new]'],
    ['with a comma at the end', '[a, b,]', '[a, b, new,]'],
    ['with a comma and a blank at the end', '[a, b, ]', '[a, b, new, ]'],
    ['with tabs between', '[a,\tb\t]', '[a,\tb, new\t]'],
    ['that are empty', '[]', '[new]'],
    ['with nothing but blanks', '[  ]', '[new  ]'],
    ['with nothing but a comment', '[ # none\n  ]', '[new # none\n  ]'],
    ['on lines of their own', '[\n    a,\n    b\n  ]', '[\n    a,\n    b,\n    new\n  ]'],
    ['on lines with a comma at the end', '[\n    a,\n    b,\n  ]', '[\n    a,\n    b,\n    new,\n  ]'],
    ['that close behind the last line', '[\n    a,\n    b]', '[\n    a,\n    b,\n    new]'],
    ['with the comma before', '[ a\n  , b\n  ]', '[ a\n  , b, new\n  ]'],
    ['with a comma on a line of its own', '[\n    a\n    ,\n  ]', '[\n    a\n    ,\n    new,\n  ]'],
    ['with lines of several', '[\n    a, b,\n    c, d\n  ]', '[\n    a, b,\n    c, d, new\n  ]'],
    ['with tabs at the margin', '[\n  \ta,\n  \tb\n  ]', '[\n  \ta,\n  \tb,\n  \tnew\n  ]'],
    [
      'with a comment behind the last',
      '[\n    a, # one\n    b # two\n  ]',
      '[\n    a, # one\n    b, # two\n    new\n  ]',
    ],
    [
      'with a comma and a comment behind the last',
      '[\n    a,\n    b, # two\n  ]',
      '[\n    a,\n    b, # two\n    new,\n  ]',
    ],
    ['with a comment on a line of its own', '[\n    a\n    # one\n  ]', '[\n    a,\n    new\n    # one\n  ]'],
    [
      'with a comment between the last and its comma',
      '[\n    a # one, or\n    , # two\n  ]',
      '[\n    a # one, or\n    , # two\n    new,\n  ]',
    ],
    ['with a comment behind one line', '[a, b # two\n  ]', '[a, b, new # two\n  ]'],
    ['with a number sign that is no comment', '[a, b#c]', '[a, b#c, new]'],
    ['that hold brackets', '[[a], {b: [c]}]', '[[a], {b: [c]}, new]'],
    ['that hold a comma in quotes', '[\'a,\', "b,]"]', '[\'a,\', "b,]", new]'],
    ['that hold text over lines', '[a\n    b, c\n    d]', '[a\n    b, c\n    d, new]'],
    ['that hold a pair without braces', '[a: 1, b: 2]', '[a: 1, b: 2, new]'],
    ['that stand below their key', '\n  [a]', '\n  [a, new]'],
    ['that hold wide characters', '["🚐表", ключ]', '["🚐表", ключ, new]'],
  ])('%s', (_, before, is) => {
    expect(add(`x-a: ${before} # c\njob: J1\n`)).toBe(`x-a: ${is} # c\njob: J1\n`);
  });

  it('may be several', () => {
    expect(addTwo('x-a: []\n')).toBe('x-a: [new, too]\n');
    expect(addTwo('x-a: [a]\n')).toBe('x-a: [a, new, too]\n');
    expect(addTwo('x-a: [\n  a,\n  ]\n')).toBe('x-a: [\n  a,\n  new,\n  too,\n  ]\n');
    expect(addTwo('x-a: [\n  a # c\n  ]\n')).toBe('x-a: [\n  a, # c\n  new,\n  too\n  ]\n');
  });

  it('is in lines that end as the others do', () => {
    expect(add('x-a: [\r\n  a\r\n  ]\r\n')).toBe('x-a: [\r\n  a,\r\n  new\r\n  ]\r\n');
  });
});

describe('a key in braces', () => {
  const lamp = put(['snapshots', 0, 'lamp'], 'on');
  const tank = put(['snapshots', 0, 'readings', 'tank'], '9 bar');

  it.each([
    [
      'goes behind those that come before it',
      '{id: a, state: rest, note: n}',
      '{id: a, state: rest, lamp: on, note: n}',
    ],
    ['goes behind a key without a value', '{id: a, codes: , x-a: }', '{id: a, lamp: on, codes: , x-a: }'],
    [
      'goes behind brackets',
      '{id: a, readings: {}, codes: []}',
      '{id: a, readings: {}, lamp: on, codes: []}',
    ],
    ['goes behind a key with a question mark', '{? id : a, note: n}', '{? id : a, lamp: on, note: n}'],
    [
      'stands on a line where the one before it does',
      '{\n    id: a,\n    note: n # c\n    }',
      '{\n    id: a,\n    lamp: on,\n    note: n # c\n    }',
    ],
  ])('%s', (_, before, is) => {
    expect(textAfter(`snapshots:\n  - ${before}\n`, lamp)).toBe(`snapshots:\n  - ${is}\n`);
  });

  it('brings the map along that is not there yet', () => {
    expect(textAfter('snapshots: [{id: a}]\n', tank)).toBe('snapshots: [{id: a, readings: {tank: 9 bar}}]\n');
    expect(textAfter('snapshots: [{id: a, readings: {}}]\n', tank)).toBe(
      'snapshots: [{id: a, readings: {tank: 9 bar}}]\n',
    );
  });
});

describe('a file in JSON', () => {
  const job = { worksheet: 1, snapshots: [{ id: 'a', codes: [] }], waivers: [] };
  const json = '{"at": "2026-03-02T11:00", "did": "noted"}';

  it('stays JSON, on lines', () => {
    const before = `${JSON.stringify(job, null, 2)}\n`;
    const log = textAfter(before, append(['log'], entry));
    expect(log).toBe(before.replace('  "waivers"', `  "log": [${json}],\n  "waivers"`));
    const lamp = textAfter(before, put(['snapshots', 0, 'lamp'], 'on'));
    expect(lamp).toBe(before.replace('      "codes"', '      "lamp": "on",\n      "codes"'));
    expect(JSON.parse(log)).toMatchObject({ log: [{ did: 'noted' }] });
  });

  it('stays JSON, on one line', () => {
    const made = textAfter(JSON.stringify(job), append(['snapshots'], entry));
    expect(JSON.parse(made)).toEqual({
      ...job,
      snapshots: [...job.snapshots, { at: '2026-03-02T11:00', did: 'noted' }],
    });
  });

  it('keeps its numbers out of quotes', () => {
    const made = textAfter(JSON.stringify(job), put(['x-amount'], { kind: 'bare', text: '12.50' }));
    expect(made).toBe('{"worksheet":1,"snapshots":[{"id":"a","codes":[]}],"waivers":[], "x-amount": 12.50}');
  });

  it('is not what a file in braces without quotes is taken for', () => {
    expect(textAfter('{worksheet: 1}', append(['log'], entry))).toBe(`{worksheet: 1, log: [${shownEntry}]}`);
  });
});
