import { describe, expect, it } from 'vitest';
import { faultsWith, jobFaults, jobProblems, soundJob } from '../problems-of.ts';

it('nothing is wrong with the sound job', () => {
  expect(jobFaults(soundJob)).toEqual([]);
  expect(jobFaults(soundJob.replaceAll('\n', '\r\n'))).toEqual([]);
});

type Bent = readonly [was: string, is: string, ...faults: string[]];

const each = (title: string, bent: readonly Bent[]): void => {
  describe(title, () => {
    it.each(bent.map((one) => [one[1].slice(0, 80), one] as const))('%s', (_, [was, is, ...faults]) => {
      expect(faultsWith(was, is)).toEqual(faults);
    });
  });
};

each('readings', [
  ['LF: 2.48 V', 'LF: 2,48 V', 'decimal-comma | write 2.48 V'],
  ['LF: 2.48 V', 'LF: "2,48 V"', 'decimal-comma | write 2.48 V'],
  ['LF: 2.48 V', 'LF: 2,48', 'decimal-comma | write 2.48'],
  ['LF: 2.48 V', 'LF: -2,48V', 'decimal-comma | write -2.48V'],
  [
    '[12.31 V, 12.30 V]',
    '[12,31 V, 12,30 V]',
    'decimal-comma | write 12.31 V',
    'decimal-comma | write 12.30 V',
  ],
  [
    '[12.31 V, 12.30 V]',
    '[12,31]',
    'decimal-comma | write 12.31, or a blank after the comma if these are two readings',
  ],
  ['148200 km', '"148,200 km"', 'decimal-comma | write 148200 km or 148.200 km'],
  ['148200 km', '"1,148,200 km"', 'decimal-comma | write 1148200 km'],
  ['148200 km', '148 200 km', 'not-a-number | write 148200 km if it is one number'],
  ['148200 km', 'far', 'not-a-number | write a number and its unit, such as 2.48 km'],
  ['148200 km', '148200 psi', 'wrong-unit | it can be mm, cm, m, km, in, ft, mi'],
  ['LF: 2.48 V', 'LF: 1e999', 'not-a-number | write it out in digits, such as 2.48 V'],
  ['LF: 2.48 V', 'LF: 012', 'leading-zero | write 12'],
  ['LF: 2.48 V', 'LF: .nan', 'not-a-number | write a number and its unit, such as 2.48 V'],
  ['LF: 2.48 V', 'LF: -.inf', 'not-a-number | write a number and its unit, such as 2.48 V'],
  ['LF: 2.48 V', 'LF: 0x1F', 'not-a-number | write it out in digits, such as 2.48 V'],
  ['LF: 2.48 V', 'LF: 1_000', 'not-a-number | write it out in digits, such as 2.48 V'],
  ['LF: 2.48 V', `LF: ${'9'.repeat(5000)}`, 'not-a-number | write a number such as 2.48 V'],
  ['LF: 2.48 V', 'LF: 2.48 furlong', 'unknown-unit | it can be V, mV'],
  ['tank: 96 psi', 'tank: 96 pssi', 'unknown-unit | did you mean psi?'],
  ['LF: 2.48 V', 'LF: 96 psi', 'wrong-unit | it can be V, mV'],
  ['LF: 2.48 V', 'LF: true', 'not-a-number | write a number and its unit, such as 2.48 V'],
  ['LF: 2.48 V', 'LF:', 'wrong-type | write a reading such as 2.48 V, or remove the key'],
  ['LF: 2.48 V', 'LF: []', 'bad-reading | write the repeats, or {why: plug seized} if none could be taken'],
  ['LF: 2.48 V', 'LF: [[2 V]]', 'bad-reading | write a value and its unit, such as 2.48 V'],
  ['LF: 2.48 V', 'LF: {}', 'bad-reading | write value: 2.48 V, or low: and high:, or why: and the reason'],
  ['low: 0.9 V, high: 2.6 V', 'low: 2.6 V, high: 0.9 V', 'bad-reading | write {low: 0.9 V, high: 2.6 V}'],
  [
    'low: 0.9 V, high: 2.6 V',
    'low: 0.9 V',
    'bad-reading | write value: 2.48 V, or low: and high:, or why: and the reason',
  ],
  ['value: 2.61 V, by: meter', 'value: 2.61 V, by: metre', 'unknown-instrument | did you mean meter?'],
  ['tank: 96 psi', 'tank: {LF: 96 psi}', 'unknown-corner | write tank: and its one reading'],
  [
    'tank: 96 psi',
    'tank: "96 psi (gauge)"',
    'unknown-unit | it can be kPa, Pa, MPa, bar, mbar, psi, atm, inHg',
  ],
]);

each('corners', [
  ['{LF: 2.48 V', '{FL: 2.48 V'],
  ['{LF: 2.48 V', '{lf: 2.48 V'],
  ['{LF: 2.48 V', '{left front: 2.48 V'],
  [
    '{LF: 2.48 V',
    '{LF: 2.48 V, FL: 2.48 V',
    'duplicate-key | another spelling of it stands before; keep one of them',
  ],
  ['{LF: 2.48 V', '{XQ: 2.48 V', 'unknown-corner | it can be LF, RF, LR, RR'],
  ['fitted: [LF', 'fitted: [FL'],
  ['fitted: [LF', 'fitted: [XQ', 'unknown-corner | it can be LF, RF, LR, RR'],
  ['sensor-sense: {LF:', 'sensor-sense: {FL:'],
  ['what: sensor.LR, note', 'what: sensor.RL, note'],
  ['what: sensor.LR, note', 'what: sensor.XQ, note', 'unknown-corner | it can be LF, RF, LR, RR'],
  [
    'what: sensor.LR, note',
    'what: sensor, note',
    'unknown-corner | write sensor.LF, sensor.RF, sensor.LR, sensor.RR',
  ],
  ['what: sensor.LR, note', 'what: compressor.LR, note', 'unknown-corner | write compressor'],
]);

each('channels', [
  ['      tank:', '      tnak:', 'unknown-channel | did you mean tank?'],
  [
    '      tank:',
    '      position.LF: 2 V\n      tank:',
    'duplicate-key | another spelling of it stands before; keep one of them',
  ],
  [
    '      tank:',
    '      FL: 2 V\n      tank:',
    'duplicate-key | another spelling of it stands before; keep one of them',
  ],
  ['      tank:', '      ride-switch: 2 V\n      tank:'],
]);

each('keys', [
  ['title:', 'titel:', 'unknown-key | did you mean title?'],
  ['title:', 'Title:', 'unknown-key | did you mean title?'],
  [
    'x-bay: 4',
    'bay: 4',
    'unknown-key | it can be at, state, conditions, readings, lamp, codes; keys of your own begin with x-',
  ],
  ['    at: 2026-03-02T08:40\n', ''],
  ['status: open\n', ''],
  ['zone: Europe/Dublin\n', ''],
  ['    state: key-on\n', '', 'missing-key | add state: rest | key-on | cranking | running | driving'],
  ['{at: 2026-03-02T10:30, did', '{did', 'missing-key | add at: 2026-03-02T08:15'],
  ['x-bay: 4', 'status: open', 'duplicate-key | it is already set in line 6; keep one of them'],
  ['x-bay: 4', '? [a]\n: 1', 'wrong-type | write key: value'],
  [
    'did: replaced, what: sensor.LR, note',
    'did: replaced, note',
    'missing-key | add what: and a component, a step, codes or road-test',
  ],
]);

each('values', [
  ['worksheet: 1', 'worksheet: 2', 'wrong-value | write 1'],
  ['status: open', 'status: opne', 'wrong-value | did you mean open?'],
  ['state: key-on', 'state: parked', 'wrong-value | it can be rest, key-on, cranking, running, driving'],
  [
    'lamp: on',
    'lamp:',
    'wrong-type | write on or off or flashing or no-self-test or not-fitted, or remove the key',
  ],
  ['lamp: on', 'lamp: [on]', 'wrong-type | it can be on, off, flashing, no-self-test, not-fitted'],
  ['job: S07-0412', 'job: 412', 'wrong-type | put it in quotes: "412"'],
  ['job: S07-0412', 'job: 0412', 'leading-zero | write 412, or put it in quotes if it is a name'],
  ['job: S07-0412', 'job: ""', 'wrong-value | write a text, or remove the key'],
  ['title: Left', `title: ${'long '.repeat(60)}Left`, 'wrong-value | give at most 200 characters'],
  ['id: as-found', 'id: as found', 'wrong-value | write a short name such as as-found'],
  ['packs: [bench@1]', 'packs: bench@1', 'wrong-type | write a list such as [position-signals@1]'],
  ['vehicle:\n', 'vehicle: Shuttle 7\nx-vehicle:\n'],
  [
    'vehicle:\n',
    'vehicle: [Shuttle 7]\nx-vehicle:\n',
    'wrong-type | write {name: …, layout: …}, or a name alone such as Shuttle 7',
  ],
  ['fitted: [LF, RF, LR, RR]', 'fitted: []', 'wrong-value | give at least 1 entry'],
  [
    'at: [1.20 V, 2.40 V]',
    'at: [1.20 V]',
    'wrong-value | give at least 2 entries',
    'wrong-value | give one height for each voltage',
  ],
  ['between: [1.00 V, 2.60 V]', 'between: [2.60 V, 1.00 V]', 'wrong-value | write the smaller value first'],
  [
    'between: [1.00 V, 2.60 V]',
    'between: [1,00 V, 2,60 V]',
    'decimal-comma | write 1.00 V',
    'decimal-comma | write 2.60 V',
  ],
  ['between: [1.00 V, 2.60 V], ', '', 'missing-key | add between: [low, high], at-least: or at-most:'],
  ['check: bench/band', 'check: bench/bnad', 'unknown-name | did you mean bench/band?'],
  ['floor: level', 'floor: flat', 'wrong-value | it can be level, sloped'],
  ['air: 8 °C', 'air: 8 V', 'wrong-unit | it can be °C, °F, K'],
  ['accuracy: 0.5 % + 0.02 V', 'accuracy: good', 'bad-reading | write it like 0.5 % + 0.02 V'],
  ['shows: 0.01 V', 'shows: 0 V', 'bad-reading | write it like 0.01 V'],
  ['finding: bench/band', 'finding: bench/bnad', 'unknown-name | did you mean bench/band?'],
]);

each('times', [
  ['zone: Europe/Dublin', 'zone: Europe/Dubln', 'unknown-zone | did you mean Europe/Dublin?'],
  ['zone: Europe/Dublin', 'zone: "+01:00"', 'unknown-zone | name one such as Europe/Dublin'],
  [
    'at: 2026-03-02T08:40',
    'at: 2026-03-29T01:30',
    'skipped-time | they go forward then; write 2026-03-29T02:30 if that is what was meant',
  ],
  ['at: 2026-03-02T08:40', 'at: 8:40'],
  ['at: 2026-03-02T08:40', 'at: 25:40', 'bad-time | check month, day, hour and minute'],
  ['at: 2026-03-02T08:40', 'at: 8.40', 'bad-time | write it like 2026-03-02T08:15'],
  ['at: 2026-03-02T08:40', 'at: 2026', 'bad-time | write it like 2026-03-02T08:15'],
  ['until: 2026-03-09', 'until: soon', 'bad-time | write it like 2026-03-09'],
  ['lasts: P7D', 'lasts: 7 days', 'bad-time | write it like P7D (seven days)'],
  ['from: 2026-03-02T11:00, ', '', 'missing-key | add from: 2026-03-02T11:00'],
]);

each('codes', [
  [
    'code: C1A21',
    'code: C1A2',
    'bad-code | write P, C, B or U, a digit 0 to 3 and three hex digits, such as C1A21 or C1A40-54',
  ],
  ['code: C1A40-54', 'code: c1a21', 'duplicate-id | keep one, with the heavier status'],
  ['code: C1A40-54', 'code: 0x5A21', 'duplicate-id | keep one, with the heavier status'],
  [
    'status: 0x28',
    'status: 0x128',
    'wrong-value | it can be present, pending, stored, history, or a status byte such as 0x28',
  ],
  [
    'status: stored',
    'status: strd',
    'wrong-value | it can be present, pending, stored, history, or a status byte such as 0x28',
  ],
  ['status: 0x28', 'status: 40'],
  ['means: signal-range', 'means: sgnal-range', 'wrong-value | did you mean signal-range?'],
  ['      - {code: C1A21, status: stored, means: signal-range}', '      - C1A21'],
  ['      - {code: C1A21, status: stored, means: signal-range}', '      - C1A21:present:signal-range'],
  [
    '      - {code: C1A21, status: stored, means: signal-range}',
    '      - C1A21:strd',
    'bad-code | a status is present, pending, stored, history or a byte such as 0x28; a meaning is one of signal-range, circuit-open, circuit-short, supply-range, communication, not-programmed, not-configured, not-calibrated, pressure, over-temperature, internal-fault, other; at=LF|RF|LR|RR|front|rear|tank|compressor|supply, in=suspension|other and set-by=test may follow',
  ],
  [
    '      - {code: C1A21, status: stored, means: signal-range}',
    '      - [C1A21]',
    'wrong-type | write a code such as C1A21 or C1A21:stored',
  ],
]);

each('the log', [
  ['did: replaced', 'did: repaced', 'wrong-value | did you mean replaced?'],
  ['what: sensor.LR, note', 'what: sensr.LR, note', 'unknown-name | did you mean sensor.LR?'],
  [
    'what: sensor.LR, note',
    'what: a thing of no known name, note',
    'unknown-name | name a component such as sensor.LR, a step, codes, ride-height or road-test',
  ],
  ['did: replaced, what: sensor.LR', 'did: noted, what: anything'],
]);

each('amounts', [
  ['amount: 138', 'amount: 1e999', 'number-not-plain | write it out in digits'],
  ['amount: 138', 'amount: 012', 'leading-zero | write 12'],
  ['amount: 138', 'amount: 0x1F', 'number-not-plain | write 31'],
  ['amount: 138', 'amount: 1_000', 'number-not-plain | write 1000'],
  ['amount: 138', 'amount: .inf', 'number-not-plain | write it out in digits'],
  ['amount: 138', 'amount: .nan', 'number-not-plain | write it out in digits'],
  ['amount: 138', 'amount: .5', 'number-not-plain | write 0.5'],
  ['amount: 138', `amount: ${'9'.repeat(400)}`, 'number-not-plain | write it out in digits'],
  ['amount: 138', 'amount: 138,50', 'decimal-comma | write 138.50'],
  ['amount: 138', 'amount: "138"', 'wrong-type | remove the quotes: 138'],
  ['amount: 138', 'amount: 138 EUR', 'wrong-type | write an amount such as 138 or 138.50'],
  ['amount: 138', 'amount: -1', 'wrong-value | give 0 or more'],
  ['amount: 138', 'amount: ~', 'wrong-type | write an amount such as 138 or 138.50, or remove the key'],
  ['labour-rate: 85 / h', 'labour-rate: cheap', 'wrong-value | write it like 85 / h'],
  ['currency: EUR', 'currency: euro', 'wrong-value | write a currency code such as EUR'],
]);

each('what is for machines', [
  [
    'at: 2026-03-02T08:40',
    'at: &t 2026-03-02T08:40',
    'anchor-or-alias | write the value out in full; put a text that begins with & or * in quotes',
  ],
  [
    'complaint: Lamp on most mornings.',
    'complaint: *t',
    'anchor-or-alias | write the value out in full; put a text that begins with & or * in quotes',
  ],
  [
    'readings:\n',
    'readings: *t\n    x-readings:\n',
    'anchor-or-alias | write the value out in full; put a text that begins with & or * in quotes',
  ],
  [
    'complaint: Lamp',
    'complaint: !x Lamp',
    'tag | put the whole text in quotes if the character belongs to it',
  ],
  [
    'x-bay: 4',
    '__proto__: {zone: UTC}',
    'unknown-key | it can be at, state, conditions, readings, lamp, codes; keys of your own begin with x-',
  ],
  [
    'x-bay: 4',
    'constructor: 4',
    'unknown-key | it can be at, state, conditions, readings, lamp, codes; keys of your own begin with x-',
  ],
  ['x-bay: 4', 'x-bay: {__proto__: {a: 012}, phone: 0123, n: 1e999}'],
]);

describe('all at once', () => {
  it('every problem of a file is told in one run, in the order of its lines', () => {
    const text = soundJob
      .replace('title:', 'titel:')
      .replace('08:15', '08:75')
      .replace('LF: 2.48 V', 'FX: 2,48 V')
      .replace('did: replaced', 'did: repaced')
      .replace('amount: 138', 'amount: 1e9');
    const problems = jobProblems(text);
    expect(problems.map(({ code }) => code)).toEqual([
      'unknown-key',
      'bad-time',
      'unknown-corner',
      'wrong-value',
      'number-not-plain',
    ]);
    const lines = problems.map(({ line }) => line ?? 0);
    expect(lines).toEqual([...lines].sort((a, b) => a - b));
    for (const { line, lineText } of problems) expect(text.split('\n')[(line ?? 0) - 1]).toBe(lineText);
  });

  it('several keys that one map lacks are one problem', () => {
    const [problem] = jobProblems('vehicle: Shuttle 7\nlog: [{by: technician}]\n');
    expect(problem?.message).toBe('missing required keys "at" and "did" in an entry of "log"');
  });

  it('a long word is not repeated at its full length', () => {
    const [problem] = jobProblems(soundJob.replace('state: key-on', `state: ${'k'.repeat(5000)}`));
    expect(problem?.message.length).toBeLessThan(100);
  });
});
