import { describe, expect, it } from 'vitest';
import { block, braces, text } from '../../../src/input/edit/value.ts';
import { append, entry, pairs, put, shownEntry, textAfter } from './editing.ts';

const snapshot = (inside: string): string => `snapshots:\n  - id: a\n    state: rest\n${inside}log: []\n`;

describe('a key in lines', () => {
  it('goes behind those that come before it in a file written by hand', () => {
    expect(textAfter('worksheet: 1\njob: J1\nwaivers: []\nx-bay: 4\n', append(['log'], entry))).toBe(
      `worksheet: 1\njob: J1\nlog:\n  - ${shownEntry}\nwaivers: []\nx-bay: 4\n`,
    );
    expect(textAfter(snapshot('    note: n\n'), put(['snapshots', 0, 'lamp'], 'on'))).toBe(
      snapshot('    lamp: on\n    note: n\n'),
    );
  });

  it('goes last where the file has an order of its own', () => {
    expect(textAfter('x-bay: 4\nwaivers: []\n', append(['log'], entry))).toBe(
      `x-bay: 4\nwaivers: []\nlog:\n  - ${shownEntry}\n`,
    );
  });

  it('stands as deep as the others, behind a dash too', () => {
    expect(textAfter('snapshots:\n-    id: a\n', put(['snapshots', 0, 'lamp'], 'on'))).toBe(
      'snapshots:\n-    id: a\n     lamp: on\n',
    );
    expect(textAfter('  worksheet: 1\n', append(['log'], entry))).toBe(
      `  worksheet: 1\n  log:\n    - ${shownEntry}\n`,
    );
  });

  it('goes below the whole value before it', () => {
    const before = 'worksheet: 1\ncosts:\n  lines:\n    - kind: part\n      what: a\n\nx-bay: 4\n';
    expect(textAfter(before, put(['waivers'], braces([])))).toBe(
      before.replace('\n\nx', '\nwaivers: {}\n\nx'),
    );
  });

  it('is parted by a blank line where the two before it are', () => {
    const before = 'worksheet: 1\n\nsnapshots:\n  - id: a\n\nx-bay: 4\n';
    expect(textAfter(before, append(['log'], entry))).toBe(
      `worksheet: 1\n\nsnapshots:\n  - id: a\n\nlog:\n  - ${shownEntry}\n\nx-bay: 4\n`,
    );
  });

  it('leaves a comment with the key below it, and takes one at the end of the map along', () => {
    expect(textAfter('job: J1\n# of the costs\ncosts: {}\n', append(['log'], entry))).toBe(
      `job: J1\nlog:\n  - ${shownEntry}\n# of the costs\ncosts: {}\n`,
    );
    expect(textAfter('job: J1 # behind\n# the end', append(['log'], entry))).toBe(
      `job: J1 # behind\n# the end\nlog:\n  - ${shownEntry}`,
    );
    const readings = '    readings:\n      supply: 12 V\n      # of the readings\n    # of the snapshot\n';
    expect(textAfter(snapshot(readings), put(['snapshots', 0, 'readings', 'tank'], '9 bar'))).toBe(
      snapshot(readings.replace('    # of the s', '      tank: 9 bar\n    # of the s')),
    );
  });

  it('brings the maps along that are not there yet: readings in lines, the rest in braces', () => {
    const way = ['snapshots', 0, 'readings', 'position', 'LF'];
    expect(textAfter(snapshot(''), put(way, '2 V'))).toBe(
      snapshot('    readings:\n      position: {LF: 2 V}\n'),
    );
    expect(textAfter(snapshot('    readings:\n      supply: 12 V\n'), put(way, '2 V'))).toBe(
      snapshot('    readings:\n      supply: 12 V\n      position: {LF: 2 V}\n'),
    );
    expect(textAfter(snapshot('    readings: {position: {RF: 2 V}}\n'), put(way, '2 V'))).toBe(
      snapshot('    readings: {position: {RF: 2 V, LF: 2 V}}\n'),
    );
    expect(textAfter(snapshot(''), put(['snapshots', 0, 'conditions', 'floor'], 'level'))).toBe(
      snapshot('    conditions: {floor: level}\n'),
    );
  });

  it('goes below a key without a value', () => {
    expect(textAfter('job: J1\nx-own:\n# of the log\n', put(['x-more'], 'a'))).toBe(
      'job: J1\nx-own:\n# of the log\nx-more: a\n',
    );
    expect(
      textAfter('snapshots:\n  - id: a\n    x-own:   # empty\nlog: []\n', put(['snapshots', 0, 'x-b'], 'c')),
    ).toBe('snapshots:\n  - id: a\n    x-own:   # empty\n    x-b: c\nlog: []\n');
  });

  it('goes among keys behind question marks', () => {
    expect(textAfter('? worksheet\n: 1\n? waivers\n: []\n', append(['log'], entry))).toBe(
      `? worksheet\n: 1\nlog:\n  - ${shownEntry}\n? waivers\n: []\n`,
    );
    expect(textAfter('? log\n: - {at: x}\n? job\n: J1\n', append(['log'], entry))).toBe(
      `? log\n: - {at: x}\n  - ${shownEntry}\n? job\n: J1\n`,
    );
  });

  it('that is there already is left as it is', () => {
    expect(textAfter(snapshot('    lamp: off\n'), put(['snapshots', 0, 'lamp'], 'on'))).toBe('no place');
    expect(
      textAfter(snapshot('    readings: none\n'), put(['snapshots', 0, 'readings', 'tank'], '9 bar')),
    ).toBe('no place');
  });

  it('of a snapshot that is not there is not made up', () => {
    expect(textAfter('snapshots: []\n', put(['snapshots', 0, 'lamp'], 'on'))).toBe('no place');
    expect(textAfter('job: J1\n', put(['snapshots', 0, 'lamp'], 'on'))).toBe('unsafe');
  });

  it('may be a map in lines', () => {
    const value = block([...pairs({ a: '1 V' }), ['b', block([['c', text('d')]])]]);
    expect(textAfter('worksheet: 1\nx-own: {}\n', put(['vehicle'], value))).toBe(
      'worksheet: 1\nvehicle:\n  a: 1 V\n  b:\n    c: d\nx-own: {}\n',
    );
  });
});
