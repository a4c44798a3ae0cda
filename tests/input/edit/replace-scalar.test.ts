import { describe, expect, it } from 'vitest';
import type { Change } from '../../../src/input/edit/change.ts';
import { text } from '../../../src/input/edit/value.ts';
import type { Way } from '../../../src/input/edit/way.ts';
import { append, textAfter } from './editing.ts';

const replace = (at: Way, by: string): Change => ({ kind: 'replace', at, text: by });

describe('a text in the place of another', () => {
  it.each([
    ['packs: [a@1, b@1]   # both\n', 'packs: [a@2, b@1]   # both\n'],
    ["packs: ['a@1', b@1]\n", "packs: ['a@2', b@1]\n"],
    ['packs: ["a@1" , b@1]\n', 'packs: ["a@2" , b@1]\n'],
    ['packs:\r\n  - a@1  # old\r\n  - b@1\r\n', 'packs:\r\n  - a@2  # old\r\n  - b@1\r\n'],
    ['{"packs": ["a@1"]}', '{"packs": ["a@2"]}'],
    ['packs: [\n  a@1\n]', 'packs: [\n  a@2\n]'],
  ])('%j keeps every other character', (before, after) => {
    expect(textAfter(before, replace(['packs', 0], 'a@2'))).toBe(after);
  });

  it('is put in quotes where it needs them', () => {
    expect(textAfter('packs: [a@1]\n', replace(['packs', 0], '>=1 <3: x'))).toBe('packs: [">=1 <3: x"]\n');
  });

  it.each([
    ['packs: a@1\n', ['packs', 0]],
    ['packs: [[a@1]]\n', ['packs', 0]],
    ['packs:\n  - >-\n    a@1\n', ['packs', 0]],
    ['packs: ["a@\n  1"]\n', ['packs', 0]],
    ['packs: [,]\n', ['packs', 3]],
  ] as const)('%j has no place for one', (before, at) => {
    expect(textAfter(before.replace('[,]', '[]'), replace(at, 'a@2'))).toBe('no place');
  });

  it('goes with others, and with new items of the same list', () => {
    const change: Change = {
      kind: 'several',
      changes: [
        replace(['packs', 0], 'a@2'),
        replace(['packs', 1], 'longer-name@22'),
        append(['packs'], text('c@2')),
        replace(['waivers', 0, 'finding'], 'c/new:LR'),
      ],
    };
    const before = 'packs: [a@1, b@1]  # two\nwaivers:\n  - {finding: a/old:LR, by: lead}\n';
    const after = 'packs: [a@2, longer-name@22, c@2]  # two\nwaivers:\n  - {finding: c/new:LR, by: lead}\n';
    expect(textAfter(before, change)).toBe(after);
  });

  it('is not made at all where one of several has no place', () => {
    const change: Change = {
      kind: 'several',
      changes: [replace(['packs', 0], 'a@2'), replace(['packs', 7], 'b@2')],
    };
    expect(textAfter('packs: [a@1]\n', change)).toBe('no place');
  });
});
