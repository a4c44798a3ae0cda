import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jsonAssignments } from '../../../src/input/typed/json-assignments.ts';
import { typedParts } from '../../../src/input/typed/typed-snapshot.ts';
import { channels, instruments } from '../../support/typing.ts';

const words = (text: string): string[] => {
  const { assignments, problems } = jsonAssignments(text, '-');
  expect(problems).toEqual([]);
  return assignments.map(({ name, typed, isReason }) => `${name}=${typed}${isReason ? ' (reason)' : ''}`);
};
const problems = (text: string): string[] => {
  const read = jsonAssignments(text, '-');
  expect(read.assignments).toEqual([]);
  return read.problems.map(({ message, hint }) => `${message}; ${hint}`);
};

describe('readings of a script', () => {
  it.each([
    ['{"supply": 12.20, "LF": 2.5}', ['supply=12.20', 'LF=2.5']],
    ['{"supply": "12.2 V", "FL": "2,48"}', ['supply=12.2 V', 'FL=2,48']],
    ['{"supply": [12.3, 12.40]}', ['supply=12.3/12.40']],
    ['{"supply": {"low": 0.9, "high": 2.6}}', ['supply=0.9..2.6']],
    ['{"supply": {"low": 0.9, "high": 2.6, "by": "meter"}}', ['supply=0.9..2.6@meter']],
    ['{"supply": {"value": 12.30, "by": "meter"}}', ['supply=12.30@meter']],
    ['{"tank": {"why": "gauge missing"}}', ['tank=gauge missing (reason)']],
    ['{"tank": {"why": 12}}', ['tank=12 (reason)']],
    ['{"position": {"LF": 2.48, "RF": [2.5, 2.6]}}', ['position.LF=2.48', 'position.RF=2.5/2.6']],
    ['{"readings": {"supply": 12.2}, "conditions": {"floor": "level"}}', ['supply=12.2', 'floor=level']],
    ['{"lamp": "on", "codes": []}', ['lamp=on', 'codes=none']],
    [
      '{"codes": ["C1A21", {"code": "C1A22", "status": "present", "means": "other"}, {"code": "C1A23", "status": 40}]}',
      ['codes=C1A21', 'codes=C1A22:present:other', 'codes=C1A23:40'],
    ],
    ['{"code": {"code": "C1A21", "status": "0x28"}}', ['code=C1A21:0x28']],
    ['{"supply": null}', ['supply=']],
    ['{"supply": []}', ['supply=']],
    ['{}', []],
    ['{"readings": {}}', []],
  ])('%s', (text, read) => {
    expect(words(text)).toEqual(read);
  });

  it.each([
    ['', 'names with their readings are wanted here; write it like {"supply": 12.20, "LF": 2.48}'],
    ['[1, 2]', 'names with their readings are wanted here; write it like {"supply": 12.20, "LF": 2.48}'],
    ['"supply"', 'names with their readings are wanted here; write it like {"supply": 12.20, "LF": 2.48}'],
    ['{"supply": ', 'a bracket is not closed; close it with ] or }'],
    [
      '{"supply": 1, "supply": 2}',
      '"supply" is set a second time; it is already set in line 1; keep one of them',
    ],
    ['{"supply": true}', 'true is neither a number nor words; write it as it is typed'],
    ['{"supply": {}}', 'this reading is missing or incomplete; give value, or low and high, or why'],
    ['{"supply": {"low": 1}}', 'this reading is missing or incomplete; give value, or low and high, or why'],
    [
      '{"supply": {"by": "meter"}}',
      'this reading is missing or incomplete; give value, or low and high, or why',
    ],
    [
      '{"supply": {"why": "gone", "value": 3}}',
      'this says several things at once; give value, or low and high, or why',
    ],
    [
      '{"supply": ["plug seized", 3]}',
      'this is not one number; write a number; for none write {"why": "plug seized"}',
    ],
    [
      '{"supply": [[1, 2], 3]}',
      'this is not one number; write a number; for none write {"why": "plug seized"}',
    ],
    ['{"supply": [null]}', 'this is not one number; write a number; for none write {"why": "plug seized"}'],
    [
      '{"supply": {"value": {"a": 1}}}',
      'this is not one number; write a number; for none write {"why": "plug seized"}',
    ],
    [
      '{"supply": {"value": "gone", "by": "meter"}}',
      'this is not one number; write a number; for none write {"why": "plug seized"}',
    ],
    ['{"codes": [["C1A21"]]}', 'this is not one code; write "C1A21:stored"'],
    [
      '{"codes": [{"code": "C1A21", "text": "front"}]}',
      '"text" is no part of a code; it can be code, status, means, at, in, set-by',
    ],
    ['{"id": "as-found", "supply": 12}', '"id" is not said here; remove it, and write --id as-found'],
    ['{"state": "running"}', '"state" is not said here; remove it, and write the state after the file'],
    ['{"tank": 1e3}', '"1e3" is not a plain number; write 1000, or put it in quotes if it is a name'],
  ])('%s is refused with what to write', (text, said) => {
    expect(problems(text)).toEqual([said]);
  });

  it('are refused at the place in the text that was sent', () => {
    const { problems: told } = jsonAssignments('{\n  "supply": 12.2,\n  "tank": true\n}', '-');
    expect(told).toMatchObject([{ file: '-', line: 3, column: 11, lineText: '  "tank": true' }]);
  });

  it('of any shape are understood or refused, and never lost', () => {
    fc.assert(
      fc.property(
        fc.dictionary(fc.constantFrom('supply', 'LF', 'codes', 'lamp', 'readings', 'x'), fc.jsonValue()),
        (value) => {
          const read = jsonAssignments(JSON.stringify(value), '-');
          const { parts, faults } = typedParts(read.assignments, channels, instruments);
          expect(parts.length + faults.length).toBe(read.assignments.length);
          if (read.problems.length > 0) expect(read.assignments).toEqual([]);
          else if (Object.keys(value).some((key) => key !== 'readings')) {
            expect(read.assignments.length).toBeGreaterThan(0);
          }
        },
      ),
      { numRuns: 300 },
    );
  });
});
