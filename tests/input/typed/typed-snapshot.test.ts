import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type ConditionName,
  conditionWords,
  lampStates,
  type Reading,
  type Snapshot,
  states,
} from '../../../src/core/job.ts';
import { parseQuantity } from '../../../src/core/readings/parse-quantity.ts';
import type { UnitName } from '../../../src/core/readings/units.ts';
import type { Assignment } from '../../../src/input/typed/assignment.ts';
import {
  type Part,
  snapshotValue,
  typedAssignment,
  typedParts,
} from '../../../src/input/typed/typed-snapshot.ts';
import { get, itemsOf, textOf } from '../../../src/input/yaml/tree.ts';
import { channels, faultOf, instruments, understood, writtenJob } from '../../support/typing.ts';

const parts = (...words: readonly string[]) =>
  typedParts(
    words.map((word) => understood(typedAssignment(word))),
    channels,
    instruments,
  );
const faults = (...words: readonly string[]): string[] =>
  parts(...words).faults.map(({ typed, message }) => `${typed}: ${message}`);
const head = { id: 'as-found', at: '2026-03-02T08:40', state: 'key-on' };
const written = (...words: readonly string[]) => {
  const { parts: made, faults: wrong } = parts(...words);
  expect(wrong).toEqual([]);
  return writtenJob('snapshots', snapshotValue(head, made));
};
const lines = (text: string): string => text.slice(text.indexOf('snapshots:'));

describe('a word of the command line', () => {
  it.each([
    ['supply=12.2', 'supply', '12.2'],
    [' supply =12.2', 'supply', '12.2'],
    ['tank=gauge = broken', 'tank', 'gauge = broken'],
    ['supply=', 'supply', ''],
  ])('%j is a name and what was typed', (word, name, typed) => {
    expect(understood(typedAssignment(word))).toEqual({ name, typed });
  });

  it.each([
    ['=5', 'this has no name before its equals sign', 'write it like supply=12.2'],
    ['tank', 'this has no equals sign', 'write it like tank=12.2, without blanks around the sign'],
    ['supply:', 'this has no equals sign', 'write it like supply=12.2, without blanks around the sign'],
    ['2.48', 'this has no equals sign', 'write it like supply=12.2, without blanks around the sign'],
    ['', 'this has no equals sign', 'write it like supply=12.2, without blanks around the sign'],
  ])('%j is refused with what to write', (word, message, hint) => {
    expect(faultOf(typedAssignment(word))).toMatchObject({ typed: word, message, hint });
  });
});

describe('a word without its name', () => {
  it.each([
    ['level', 'floor', 'level'],
    ['Sloped', 'floor', 'sloped'],
    ['empty', 'load', 'empty'],
    ['disabled', 'levelling', 'disabled'],
    ['shut', 'doors', 'shut'],
    ['kneeling', 'mode', 'kneeling'],
    ['flashing', 'lamp', 'flashing'],
    ['8C', 'air', '8C'],
    ['-4 °C', 'air', '-4 °C'],
    ['41F', 'air', '41F'],
    ['C1A21', 'code', 'C1A21'],
    ['c1a40-54:0x28', 'code', 'c1a40-54:0x28'],
  ])('%j is of %s', (word, name, typed) => {
    expect(understood(typedAssignment(word))).toEqual({ name, typed });
  });

  it.each([
    ['on', 'maintainer=on, heavy-load=on, compressor=on, lamp=on'],
    ['open', 'air-system=open, doors=open'],
    ['normal', 'idle=normal, mode=normal'],
  ])('%j may be of several things', (word, names) => {
    expect(faultOf(typedAssignment(word)).hint).toBe(`write one of ${names}`);
  });

  it.each(['floor', 'compressor', 'idle', '8V', 'C1A2'])('%j says nothing by itself', (word) => {
    expect(faultOf(typedAssignment(word)).message).toBe('this has no equals sign');
  });
});

describe('assignments that do not go together', () => {
  it.each([
    [['RF=2.5', 'FR=2.6'], 'FR=2.6: position.RF is given twice'],
    [['supply=12', 'SUPPLY=13'], 'SUPPLY=13: supply is given twice'],
    [['floor=level', 'floor=sloped'], 'floor=sloped: floor is given twice'],
    [['lamp=on', 'lamp=off'], 'lamp=off: lamp is given twice'],
    [['code=C1A21', 'code=c1a21:present'], 'code=c1a21:present: C1A21 is given twice'],
    [['code=C1A21', 'code=0x5A21'], 'code=0x5A21: C1A21 is given twice'],
    [['code=C1A40-54', 'code=0x5a4054'], 'code=0x5a4054: C1A40-54 is given twice'],
    [['code=none', 'code=C1A21'], 'code=C1A21: a code is given, and none, too'],
    [['code=C1A21', 'code=none'], 'code=none: a code is given, and none, too'],
    [['code=none', 'code=none'], 'code=none: a code is given, and none, too'],
    [
      ['reference=5', 'reference.LF=5'],
      'reference.LF=5: reference is given once for the vehicle and at a corner, too',
    ],
    [
      ['reference.LF=5', 'reference=5'],
      'reference=5: reference is given once for the vehicle and at a corner, too',
    ],
  ])('%j', (words, said) => {
    expect(faults(...words)).toEqual([said]);
  });

  it('are all told at once, each with its word', () => {
    expect(faults('batery=14', 'supply=12psi', 'lamp=maybe', 'floor=wonky', 'code=C9', 'air=8V')).toEqual([
      'batery=14: nothing is called "batery"',
      'supply=12psi: psi measures pressure, and a voltage is wanted here',
      'lamp=maybe: "maybe" is not a state of the lamp',
      'floor=wonky: "wonky" is not a word for floor',
      'code=C9: "C9" is not a trouble code',
      'air=8V: V measures voltage, and a temperature is wanted here',
    ]);
    expect(faults('asleep=40', 'mode=parking', 'on-stops=true')).toEqual([
      'asleep=40: this may be minutes or hours',
      'mode=parking: "parking" is not a word for mode',
      'on-stops=true: "true" is not a word for on-stops',
    ]);
    expect(faults('air=warm', 'rested=', 'code=')).toEqual([
      'air=warm: there is no number in it',
      'rested=: there is no number in it',
      'code=: nothing is typed here',
    ]);
  });
});

describe('what was typed of a snapshot', () => {
  it('stands in a file in the order and the form of one written by hand', () => {
    const { text } = written(
      'code=C1A21:stored:signal-range',
      'FL=2,48',
      'lamp=ON',
      'battery=12.3',
      'air=8C',
      'RR=0.9..2.6',
      'floor=level',
      'LR=plug seized',
      'supply=12.31@meter',
      'RF=2.48/2.5',
      'code=C1A40-54:0x28',
    );
    expect(lines(text)).toBe(`snapshots:
  - id: as-found
    at: 2026-03-02T08:40
    state: key-on
    conditions: {air: 8 °C, floor: level}
    readings:
      position: {LF: 2.48 V, RR: {low: 0.9 V, high: 2.6 V}, LR: {why: plug seized}, RF: [2.48 V, 2.5 V]}
      battery: 12.30 V
      supply: {value: 12.31 V, by: meter}
    lamp: on
    codes:
      - {code: C1A21, status: stored, means: signal-range}
      - {code: C1A40-54, status: 0x28}
`);
  });

  it('says of a list that held nothing that it was read', () => {
    expect(written('code=none').job.snapshots[0]?.codes).toEqual([]);
    expect(written('lamp=on').job.snapshots[0]?.codes).toBeNull();
  });

  it('takes over conditions that are not typed anew', () => {
    const { parts: made } = parts('floor=level', 'supply=12');
    const before = [
      ['floor', { kind: 'text', text: 'sloped' }],
      ['load', { kind: 'text', text: 'empty' }],
    ] as const;
    const { job } = writtenJob('snapshots', snapshotValue(head, made, before));
    expect(job.snapshots[0]?.conditions.words).toEqual({ floor: 'level', load: 'empty' });
  });

  it.each([
    'a: b # c',
    '"quotes" and \'others\'',
    'smile \u{1f642}',
    '- dash',
    'two\nlines',
    '{braces}',
    '012',
    'null',
  ])('keeps the note %j as it is', (note) => {
    const { root } = writtenJob('snapshots', snapshotValue(head, parts('supply=12').parts, [], note));
    expect(textOf(get(itemsOf(get(root, 'snapshots'))[0], 'note'))).toBe(note);
  });
});

/** A number with its digits, which is all that is typed of most readings; none that anybody would doubt. */
const digits = fc
  .tuple(fc.integer({ min: 0, max: 15 }), fc.stringMatching(/^(\.\d{1,3})?$/u))
  .map(([whole, decimals]) => `${whole}${decimals}`);

const valueOfReading = fc.oneof(
  { weight: 4, arbitrary: digits },
  fc.array(digits, { minLength: 2, maxLength: 4 }).map((all) => all.join('/')),
  fc.tuple(digits, digits).map(([low, high]) => `${low}..${high}`),
  fc.tuple(digits, fc.constantFrom('meter', 'module')).map(([one, by]) => `${one}@${by}`),
  fc.constantFrom('plug seized', 'gauge: broken, #2', 'no "access" here', 'nicht m\u00f6glich \u{1f642}'),
  fc.string({ maxLength: 12 }),
);

const readingNames = ['LF', 'fr', 'position.RL', 'RR', 'supply', 'battery', 'tank', 'reference', 'spring.LF'];

const assignment: fc.Arbitrary<Assignment> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({ name: fc.constantFrom(...readingNames), typed: valueOfReading }),
  },
  fc.constantFrom(...(Object.keys(conditionWords) as ConditionName[])).chain((name) =>
    fc.record({
      name: fc.constant(name),
      typed: fc.constantFrom<string>(...conditionWords[name]).map((word) => word.toUpperCase()),
    }),
  ),
  fc.record({ name: fc.constantFrom('air', 'rested', 'altitude'), typed: digits }),
  fc.record({ name: fc.constant('lamp'), typed: fc.constantFrom<string>(...lampStates) }),
  fc.record({
    name: fc.constant('code'),
    typed: fc.constantFrom('C1A21', 'c1a22:present', 'U0100:other:history', 'C1A40-54:0x28', 'none'),
  }),
);

/** The values of a typed reading, by the program's own reading of each number alone. */
const numbersOf = (typed: string, unit: UnitName): number[] =>
  typed
    .replace(/@.*$/u, '')
    .split(/\.\.|\//u)
    .map((one) => {
      const parsed = parseQuantity(one.trim(), unit);
      if (!parsed.ok) throw new Error(`${one}: ${parsed.fault.message}`);
      return parsed.value.value;
    });

/** A reading as read back from a file against what was typed of it. */
const expectReading = (reading: Reading | undefined, typed: string, unit: UnitName): void => {
  if (reading === undefined) throw new Error(`nothing was written of ${typed}`);
  if (reading.kind === 'untaken') {
    expect(reading.why).toBe(typed.trim());
    return;
  }
  const wanted = numbersOf(typed, unit);
  if (reading.kind === 'span') {
    expect([reading.low.value, reading.high.value]).toEqual(wanted.sort((a, b) => a - b));
  } else expect(reading.values.map(({ value }) => value)).toEqual(wanted);
};

const statedOf = ({ conditions: { words, ...quantities } }: Snapshot): Readonly<Record<string, unknown>> => ({
  ...quantities,
  ...words,
});

const expectPart = (snapshot: Snapshot, { name }: Part, typed: string): void => {
  if (name.kind === 'reading') {
    expectReading(snapshot.readings.get(name.key), typed, name.channel.unit);
  } else if (name.kind === 'lamp') {
    expect(snapshot.lamp).toBe(typed);
  } else if (name.kind === 'codes') {
    expect(snapshot.codes).toHaveLength(typed === 'none' ? 0 : 1);
  } else {
    const one = statedOf(snapshot)[name.name];
    expect({ one }).toMatchObject({
      one: typeof one === 'string' ? typed.toLowerCase() : { value: Number(typed) },
    });
  }
};

describe('any assignments that are accepted', () => {
  it('make a file that reads back with just those values', () => {
    let accepted = 0;
    const some = fc.uniqueArray(assignment, { selector: ({ name }) => name.toLowerCase(), maxLength: 10 });
    fc.assert(
      fc.property(some, fc.constantFrom(...states), (assignments, state) => {
        const { parts: made, faults: wrong } = typedParts(assignments, channels, instruments);
        if (wrong.length > 0) return;
        accepted += 1;
        const [snapshot] = writtenJob('snapshots', snapshotValue({ ...head, state }, made)).job.snapshots;
        if (!snapshot) throw new Error('no snapshot was written');
        expect(snapshot.state).toBe(state);
        expect(snapshot.readings.size).toBe(made.filter(({ name }) => name.kind === 'reading').length);
        for (const [index, part] of made.entries()) {
          expectPart(snapshot, part, assignments[index]?.typed ?? '');
        }
      }),
      { numRuns: 500 },
    );
    expect(accepted).toBeGreaterThan(150);
  });
});
