import { describe, expect, it } from 'vitest';
import { block, lines, text, type Value } from '../../../src/input/edit/value.ts';
import { append, entry, pairs, shownEntry, textAfter } from './editing.ts';

const snapshot: Value = block(pairs({ id: 'b', state: 'rest' }));
const addLog = (before: string): string => textAfter(before, append(['log'], entry));
const addSnapshot = (before: string): string => textAfter(before, append(['snapshots'], snapshot));

describe('an item at the end of a list in lines', () => {
  it('stands below the last one, before what follows the list', () => {
    expect(addLog('log:\n  - {at: x}\njob: J1\n')).toBe(`log:\n  - {at: x}\n  - ${shownEntry}\njob: J1\n`);
  });

  it('stands at the indent of the list, also where that is the indent of its key', () => {
    expect(addLog('log:\n- {at: x}\njob: J1\n')).toBe(`log:\n- {at: x}\n- ${shownEntry}\njob: J1\n`);
    expect(addLog('log:\n     - {at: x}\n')).toBe(`log:\n     - {at: x}\n     - ${shownEntry}\n`);
  });

  it('has the gap behind its dash that the others have, and its lines below each other', () => {
    expect(addSnapshot('snapshots:\n  -   id: a\n      state: rest\n')).toBe(
      'snapshots:\n  -   id: a\n      state: rest\n  -   id: b\n      state: rest\n',
    );
  });

  it('begins behind the dash where others begin below it', () => {
    expect(addSnapshot('snapshots:\n  -\n    id: a\n')).toBe(
      'snapshots:\n  -\n    id: a\n  - id: b\n    state: rest\n',
    );
    expect(addSnapshot('snapshots:\n  - # the first\n    id: a\n')).toBe(
      'snapshots:\n  - # the first\n    id: a\n  - id: b\n    state: rest\n',
    );
  });

  it('is in braces where the last one is, and a key a line where that is', () => {
    expect(addSnapshot('snapshots:\n  - id: z\n  - {id: a}\n')).toBe(
      'snapshots:\n  - id: z\n  - {id: a}\n  - {id: b, state: rest}\n',
    );
    expect(textAfter('log:\n  - at: x\n    did: noted\n', append(['log'], entry))).toBe(
      'log:\n  - at: x\n    did: noted\n  - at: 2026-03-02T11:00\n    did: noted\n',
    );
  });

  it('is parted by a blank line where the last two are', () => {
    expect(addSnapshot('snapshots:\n  - id: z\n\n  - id: a\n\nlog: []\n')).toBe(
      'snapshots:\n  - id: z\n\n  - id: a\n\n  - id: b\n    state: rest\n\nlog: []\n',
    );
    expect(addSnapshot('snapshots:\n\n  - id: z\n  - id: a\n\nlog: []\n')).toBe(
      'snapshots:\n\n  - id: z\n  - id: a\n  - id: b\n    state: rest\n\nlog: []\n',
    );
  });

  it('may be several', () => {
    expect(textAfter('log:\n  - {at: x}\n\n  - {at: y}\n', append(['log'], entry, text('z')))).toBe(
      `log:\n  - {at: x}\n\n  - {at: y}\n\n  - ${shownEntry}\n\n  - z\n`,
    );
  });

  it('goes into a list in a list', () => {
    const inner = lines([text('c'), text('d')]);
    expect(textAfter('x-a:\n  - - a\n    - b\n', append(['x-a'], inner))).toBe(
      'x-a:\n  - - a\n    - b\n  - - c\n    - d\n',
    );
    expect(textAfter('x-a:\n  - - a\n    - b\n', append(['x-a', 0], text('c')))).toBe(
      'x-a:\n  - - a\n    - b\n    - c\n',
    );
  });
});

describe('comments around the end of a list', () => {
  const list = 'log:\n  - {at: x} # behind\n';

  it.each([
    ['deeper than the list', '      # one\n', true],
    ['as deep as the list', '  # one\n', true],
    ['between the list and its key', ' # one\n', false],
    ['as deep as the key', '# one\n', false],
    ['below a blank line, as deep as the list', '\n  # one\n', true],
    ['below a blank line, as deep as the key', '\n# one\n', false],
  ])('%s stay with what they belong to', (_, comment, isAbove) => {
    const added = `  - ${shownEntry}\n`;
    const rest = 'job: J1\n';
    expect(addLog(list + comment + rest)).toBe(list + (isAbove ? comment + added : added + comment) + rest);
  });

  it('several of them are parted where the indent says so', () => {
    expect(addLog(`${list}  # one\n\n# two\n  # three\njob: J1\n`)).toBe(
      `${list}  # one\n  - ${shownEntry}\n\n# two\n  # three\njob: J1\n`,
    );
  });

  it('as deep as a list that stands no deeper than its key belong to what follows', () => {
    expect(addLog('log:\n- {at: x}\n# one\njob: J1\n')).toBe(
      `log:\n- {at: x}\n- ${shownEntry}\n# one\njob: J1\n`,
    );
    expect(addLog('log:\n- {at: x}\n # one\njob: J1\n')).toBe(
      `log:\n- {at: x}\n # one\n- ${shownEntry}\njob: J1\n`,
    );
  });

  it('as deep as such a list further in belong to what follows, too', () => {
    const before = 'snapshots:\n  - id: a\n    codes:\n    - {code: C1A21}\n    # of the note\n    note: n\n';
    expect(textAfter(before, append(['snapshots', 0, 'codes'], text('C1A40')))).toBe(
      before.replace('    # of', '    - C1A40\n    # of'),
    );
  });
});

describe('a list that cannot be added to', () => {
  it.each([
    ['a text', 'log: none\n'],
    ['a map', 'log: {at: x}\n'],
    ['nothing', 'log:\njob: J1\n'],
  ])('since %s stands there is left alone', (_, before) => {
    expect(addLog(before)).toBe('no place');
  });

  it('is made where there is none', () => {
    expect(addLog('worksheet: 1\n')).toBe(`worksheet: 1\nlog:\n  - ${shownEntry}\n`);
  });
});
