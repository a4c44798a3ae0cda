import { describe, expect, it } from 'vitest';
import { text } from '../../../src/input/edit/value.ts';
import { saysAsIntended } from '../../../src/input/edit/verify.ts';
import { readYaml } from '../../../src/input/yaml/read-yaml.ts';
import type { Node } from '../../../src/input/yaml/tree.ts';
import { append, entry, put, shownEntry } from './editing.ts';

const root = (yaml: string): Node => {
  const read = readYaml(yaml).root;
  if (read === null) throw new Error('cannot be read');
  return read;
};

const before = `job: J1
snapshots:
  - {id: a, lamp: on}
log:
  - {at: x}
`;

/** Whether the file may be replaced by what stands there after an entry was added to its log. */
const accepts = (is: string, change = append(['log'], entry)): boolean =>
  saysAsIntended(root(before), change, root(is));

describe('a file after a change', () => {
  it('may look different as long as it says what it should', () => {
    expect(accepts(`${before}  - ${shownEntry}\n`)).toBe(true);
    expect(
      accepts(`log: [{"at": 'x'}, ${shownEntry}]\nsnapshots: [{lamp: on, id: a}]\njob: J1 # other order\n`),
    ).toBe(true);
  });

  it.each([
    ['without the change', before],
    ['with the change twice', `${before}  - ${shownEntry}\n  - ${shownEntry}\n`],
    ['with the change elsewhere', before.replace('log:', `  - ${shownEntry}\nlog:`)],
    ['with the change before the others', before.replace('log:\n', `log:\n  - ${shownEntry}\n`)],
    ['with a key more', `${before}  - ${shownEntry}\nx-more: 1\n`],
    ['with a key less', `${before}  - ${shownEntry}\n`.replace('job: J1\n', '')],
    ['with another text', `${before}  - ${shownEntry}\n`.replace('J1', 'J2')],
    ['with a text that is a number now', `${before}  - ${shownEntry}\n`.replace('J1', '1')],
    ['with an item less', `${before.replace('  - {id: a, lamp: on}\n', '  []\n')}  - ${shownEntry}\n`],
    ['with a list in the place of a text', `${before}  - ${shownEntry}\n`.replace('J1', '[J1]')],
    ['with part of the entry', `${before}  - {at: 2026-03-02T11:00}\n`],
  ])('%s is not what was meant', (_, is) => {
    expect(accepts(is)).toBe(false);
  });

  it('has a number where a number was meant to be, with the digits as typed', () => {
    const change = put(['x-amount'], { kind: 'bare', text: '12.50' });
    expect(accepts(`${before}x-amount: 12.50\n`, change)).toBe(true);
    expect(accepts(`${before}x-amount: 12.5\n`, change)).toBe(false);
  });

  it('has a text where a text was meant to be', () => {
    const change = put(['x-name'], text('12'));
    expect(accepts(`${before}x-name: "12"\n`, change)).toBe(true);
    expect(accepts(`${before}x-name: 12\n`, change)).toBe(false);
  });
});
