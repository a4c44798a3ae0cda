import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { emptyJob, type Folder, makeFolder, refusal } from '../support/folder.ts';
import { runCli } from '../support/run.ts';

const job = (): Promise<Folder> => makeFolder({ 's4.yaml': emptyJob });
const now = ['--as-of', '2026-03-02T18:00'];
const add = (folder: Folder, ...words: readonly string[]) => folder.run(['add', 's4.yaml', ...words, ...now]);
const refuse = async (...words: readonly string[]): Promise<string> =>
  refusal(await job(), ['add', 's4.yaml', ...words, ...now]);
const tail = (text: string): string => text.slice(emptyJob.length);

describe('a snapshot from one line', () => {
  it('is written as it would be by hand, below all that stands there', async () => {
    const folder = await job();
    const words =
      'supply=12.2 battery=12.31 FL=2,48 RF=2.55 LR=1.12 RR=2.61 tank=96psi lamp=on code=C1A21:stored:signal-range air=8C floor=level load=empty';
    const { code, stderr } = await add(folder, 'key-on', ...words.split(' '), '--note', 'cold: -4, #2');
    expect([code, stderr]).toEqual([0, '']);
    const text = await folder.read('s4.yaml');
    expect(text.startsWith(emptyJob)).toBe(true);
    expect(tail(text)).toBe(`snapshots:
  - id: key-on
    at: 2026-03-02T18:00
    state: key-on
    conditions: {air: 8 °C, floor: level, load: empty}
    readings:
      supply: 12.2 V
      battery: 12.31 V
      position: {LF: 2.48 V, RF: 2.55 V, LR: 1.12 V, RR: 2.61 V}
      tank: 96 psi
    lamp: on
    codes:
      - {code: C1A21, status: stored, means: signal-range}
    note: "cold: -4, #2"
`);
  });

  it('is told as it was understood, judged alone, and with what it changed', async () => {
    const folder = await job();
    const { stdout } = await add(folder, 'key-on', 'battery=12.3', 'fl=2,48', 'lamp=on', 'code=none');
    const [written, findings] = stdout.split('\n\n');
    const head = stdout.slice(stdout.indexOf('\n\nShuttle') + 2);
    expect(written).toBe(`s4.yaml: snapshot key-on (2 readings, lamp, no codes), 2026-03-02 18:00, written
  battery 12.30 V · position.LF 2.48 V · lamp on · codes none
  "Save the codes of all modules before any is cleared" is done`);
    expect(findings).toMatch(/^Findings of key-on: out: 1 hold · within: \d+\n/u);
    expect(findings).toContain('  hold    Warning lamp: ');
    expect(stdout).toContain('wants floor: level, and the snapshot does not state it');
    expect(head).toMatch(/^Shuttle 4 · .* · 2026-03-02 18:00\nDO NOT RELEASE: warning lamp\nNow: /u);
  });

  it('prints the findings of that snapshot and of no other', async () => {
    const folder = await job();
    await add(folder, 'key-on', 'battery=9.5', '--at', '10:00');
    const { stdout } = await add(folder, 'running', 'battery=14.1', '--at', '10:10');
    expect(stdout).toContain('Findings of running:');
    expect(stdout).not.toContain('9.5');
  });

  it('shows what is within, too, if asked to', async () => {
    const folder = await job();
    const { stdout } = await add(folder, 'running', 'battery=14.1', '--all');
    expect(stdout).toMatch(/^within/mu);
  });

  it('prints nothing with --quiet, and writes all the same', async () => {
    const folder = await job();
    expect(await add(folder, 'running', 'battery=14.1', '--quiet')).toEqual({
      code: 0,
      stdout: '',
      stderr: '',
    });
    expect(tail(await folder.read('s4.yaml'))).toContain('battery: 14.10 V');
  });

  it.each([
    ['LF=2.48/2.50/2.4', 'position: {LF: [2.48 V, 2.50 V, 2.4 V]}'],
    ['battery=12.3/12.31', 'battery: [12.30 V, 12.31 V]'],
    ['LF=0.9..2.6', 'position: {LF: {low: 0.9 V, high: 2.6 V}}'],
    ['supply=12.3@meter', 'supply: {value: 12.30 V, by: meter}'],
    ['tank=gauge missing', 'tank: {why: gauge missing}'],
    ['tank=plug: seized, "tight" #2', 'tank: {why: "plug: seized, \\"tight\\" #2"}'],
    ['Position.rl=2.5', 'position: {LR: 2.5 V}'],
    ['tank=6.6bar', 'tank: 6.6 bar'],
    ['BATTERY=12,5', 'battery: 12.50 V'],
    ['height.LR=412', 'height: {LR: 412 mm}'],
  ])('%s is written %s', async (word, written) => {
    const folder = await job();
    const { code, stderr } = await add(folder, 'key-on', word);
    expect([code, stderr]).toEqual([0, '']);
    expect(tail(await folder.read('s4.yaml'))).toContain(written);
  });

  it('has the name of its state, then one with a number, or its own', async () => {
    const folder = await job();
    await add(folder, 'running', 'battery=14.1', '--at', '10:00');
    await add(folder, 'running', 'battery=14.2', '--at', '10:10');
    await add(folder, 'RUNNING', 'battery=14.3', '--id', 'after-repair', '--at', '2026-03-01 10:10');
    const text = await folder.read('s4.yaml');
    expect(text.match(/^ {2}- id: .*$/gmu)).toEqual([
      '  - id: running',
      '  - id: running-2',
      '  - id: after-repair',
    ]);
    expect(text.match(/^ {4}at: .*$/gmu)).toEqual([
      '    at: 2026-03-02T10:00',
      '    at: 2026-03-02T10:10',
      '    at: 2026-03-01T10:10',
    ]);
  });

  it('has the second of the clock where no other time is given', async () => {
    const folder = await job();
    await folder.run(['add', 's4.yaml', 'running', 'battery=14.1'], { now: Date.UTC(2026, 6, 2, 9, 10, 11) });
    expect(tail(await folder.read('s4.yaml'))).toContain('at: 2026-07-02T10:10:11\n');
  });

  it('has an offset in the hour that an autumn night has twice', async () => {
    const folder = await job();
    await folder.run(['add', 's4.yaml', 'running', 'battery=14.1'], { now: Date.UTC(2026, 9, 25, 1, 30) });
    const { stdout } = await folder.run(['add', 's4.yaml', 'running', 'battery=14.1', '--at', '01:30'], {
      now: Date.UTC(2026, 9, 25, 12),
    });
    expect((await folder.read('s4.yaml')).match(/at: 2026-10-25.*/gu)).toEqual([
      'at: 2026-10-25T01:30:00+00:00',
      'at: 2026-10-25T01:30+01:00',
    ]);
    expect(stdout).toContain('2026-10-25 01:30+01:00');
  });

  it('repeats the conditions of the snapshot before it with --last, and says of which', async () => {
    const folder = await job();
    await add(folder, 'key-on', 'supply=12', 'floor=level', 'air=8', '--at', '09:00');
    await add(folder, 'key-on', 'supply=12', '--at', '09:10');
    const { stdout } = await add(folder, 'running', 'battery=14.1', 'air=9', '--last', '--at', '09:20');
    expect(stdout).toContain('conditions of key-on repeated');
    expect(await folder.read('s4.yaml')).toContain('conditions: {floor: level, air: 9 °C}');
  });

  it.each([
    ['a: b'],
    ['# not a comment'],
    ['"quoted" and \'so\''],
    ['smile \u{1f642} please'],
    ['two\nlines'],
    ['- dash'],
    ['null'],
    ['{a: [b'],
  ])('keeps the note %j', async (note) => {
    const folder = await job();
    expect((await add(folder, 'key-on', 'supply=12', '--note', note)).code).toBe(0);
    expect((await add(folder, 'key-on', 'supply=12')).code).toBe(0);
    const { stdout } = await folder.run(['check', 's4.yaml', '--format', 'ndjson', ...now]);
    expect(stdout).toContain('"s4"');
  });
});

describe('a snapshot from a script', () => {
  const send = async (stdin: string | Uint8Array, ...words: readonly string[]) => {
    const folder = await job();
    const outcome = await folder.run(['add', 's4.yaml', 'key-on', ...words, '-', ...now], { stdin });
    return { ...outcome, text: tail(await folder.read('s4.yaml')) };
  };

  it('has its names and values in JSON, with digits kept', async () => {
    const { code, text } = await send(
      '{"supply": 12.20, "FL": "2,48", "lamp": "on", "codes": []}',
      'floor=level',
    );
    expect(code).toBe(0);
    expect(text).toContain('supply: 12.20 V');
    expect(text).toContain('position: {LF: 2.48 V}');
    expect(text).toContain('conditions: {floor: level}');
    expect(text).toContain('lamp: on\n    codes: []');
  });

  it.each([
    ['', 'there is nothing in this file'],
    ['{"supply": ', 'a bracket is not closed'],
    ['[1, 2]', 'names with their readings are wanted here'],
    ['"supply"', 'names with their readings are wanted here'],
    ['{"supply": {"a": {"b": [1, {"c": 2}]}}}', 'this is not one number'],
    ['{"supply": {"a": {"b": 2}}}', 'nothing is called "supply.a.b"'],
    ['{"supply": true}', 'true is neither a number nor words'],
    ['{"supply": null}', 'nothing is typed here'],
    ['{"supply": {"why": ""}}', 'nothing is written here'],
    ['{"supply": {"why": "gone\\u001b[31m"}}', 'the invisible character U+001B'],
    ['{"supply": 1, "supply": 2}', 'is set a second time'],
    ['{"codes": [{"x": 1}]}', '"x" is no part of a code'],
    ['{"id": "x", "supply": 12}', '"id" is not said here'],
    ['{}', 'no reading is given'],
    [new Uint8Array([0xff, 0xfe, 0x7b, 0]), 'this is UTF-16 text'],
  ])('%j is refused', async (stdin, message) => {
    const said = await refusal(await job(), ['add', 's4.yaml', 'key-on', '-', ...now], { stdin });
    expect(said).toContain(message);
  });
});

describe('a line that is wrong', () => {
  it.each([
    [['kye-on', 'supply=12'], '"kye-on" is not a state', 'did you mean key-on?'],
    [
      ['standing', 'supply=12'],
      '"standing" is not a state',
      'it can be rest, key-on, cranking, running, driving',
    ],
    [['key-on', 'suply=12'], 'suply=12: nothing is called "suply"', 'did you mean supply?'],
    [['key-on', 'supply=12psi'], 'psi measures pressure, and a voltage is wanted here', 'it can be V, mV'],
    [['key-on', 'RF=2.5', 'FR=2.6'], 'position.RF is given twice', 'for repeats write 2.48/2.50/2.49'],
    [['key-on', 'code=C9'], '"C9" is not a trouble code', 'such as C1A21:stored, or none'],
    [['key-on', 'code=C1A21:stord'], '"stord" is neither a status nor a meaning', 'did you mean stored?'],
    [
      ['key-on', 'lamp=bright'],
      '"bright" is not a state of the lamp',
      'it can be on, off, flashing, no-self-test',
    ],
    [['key-on', 'floor=wonky'], '"wonky" is not a word for floor', 'it can be level, sloped'],
    [['key-on', 'supply='], 'supply=: nothing is typed here', 'or why there is none'],
    [['key-on', 'floor='], 'floor=: nothing is typed here', 'it can be level, sloped'],
    [['key-on', '=5'], 'this has no name before its equals sign', 'write it like supply=12.2'],
    [['key-on', 'supply'], 'this has no equals sign', 'write it like supply=12.2'],
    [['key-on', `supply=${'9'.repeat(30)}`], 'is too large to be a reading', 'write a number'],
    [['key-on', 'supply=12\u001b[31m.4'], 'is not a known unit', 'it can be V, mV'],
    [['key-on', 'tank=seized \u001b[31m red'], 'it holds the invisible character U+001B', 'remove it'],
    [['key-on', '\u001b[31m=12'], 'nothing is called', 'name a channel'],
    [['key-on'], 'no reading is given', 'or - for JSON on standard input'],
    [['key-on', 'supply=12', '--id', 'a b'], '--id a b: this is not a short name', 'such as as-found'],
    [['key-on', 'supply=12', '--id', ''], 'this is not a short name', 'such as as-found'],
    [
      ['key-on', 'supply=12', '--at', '18:30'],
      '--at 18:30: 2026-03-02 18:30 is after now',
      'give the day, too',
    ],
    [['key-on', 'supply=12', '--at', '2026-03-02'], 'has no time of day', 'write it like 2026-03-02T08:40'],
    [['key-on', 'supply=12', '--at', 'noon'], '"noon" is not a time', 'write it like 10:30'],
    [
      ['key-on', 'supply=12', '--at', '2025-03-30T01:30'],
      'skip 01:30 on 2025-03-30',
      'write 2025-03-30T02:30',
    ],
    [['key-on', 'supply=12', '--last'], 'no earlier snapshot states any conditions', 'such as floor=level'],
    [['key-on', 'supply=12', '--note', ' '], '--note: nothing is written here', 'leave it out'],
    [
      ['key-on', 'supply=12', '--note', 'a\u001bb'],
      '--note: it holds the invisible character U+001B',
      'remove it',
    ],
    [['key-on', 'supply=12', '--note', 'x'.repeat(4001)], 'the limit is 4000', 'shorten it'],
  ])('%j is refused with what to write', async (words, message, hint) => {
    const said = (await refuse(...words)).replace(/\s+/gu, ' ');
    expect(said).toContain(message);
    expect(said).toContain(hint);
    expect(said).not.toContain('\u001b');
  });

  it('is told in full, each fault with its word', async () => {
    const said = await refuse('runing', 'batery=14', 'supply=12psi', 'lamp=maybe', '--at', '19:00');
    expect(said.match(/^cornerwise: /gmu)).toHaveLength(5);
  });

  it('does not take a name that another snapshot has', async () => {
    const folder = await job();
    await add(folder, 'key-on', 'supply=12', '--at', '10:00');
    const said = await refusal(folder, ['add', 's4.yaml', 'running', 'battery=14', '--id', 'key-on', ...now]);
    expect(said).toContain('--id key-on: another snapshot has this name\n  write another, such as key-on-2');
  });
});

describe('a file that cannot be added to', () => {
  const to = (folder: Folder, file: string) => refusal(folder, ['add', file, 'key-on', 'supply=12', ...now]);

  it.each([
    ['nothing.yaml', 'there is no such file: nothing.yaml'],
    ['none/nothing.yaml', 'there is no such file: none/nothing.yaml'],
    ['-', 'a job on standard input cannot be written back'],
    ['folder', 'this is a folder, not a file'],
    ['cornerwise.yaml', 'missing required key "vehicle"'],
    ['broken.yaml', 'a bracket is not closed'],
    ['mistaken.yaml', '"brightly" is not one of'],
    ['empty.yaml', 'there is nothing in this file'],
  ])('%s: %s', async (file, message) => {
    const folder = await makeFolder({
      'broken.yaml': 'worksheet: [1',
      'mistaken.yaml': `${emptyJob}snapshots:\n  - {id: a, at: 2026-03-02T08:00, state: key-on, lamp: brightly}\n`,
      'empty.yaml': '',
    });
    await mkdir(join(folder.path, 'folder'));
    const said = await to(folder, file);
    if (file === 'mistaken.yaml') expect(said).toMatch(/mistaken\.yaml:15:\d+: .*\[wrong-value\]/u);
    else expect(said).toContain(message);
  });
});

describe('a change that cannot be put on record', () => {
  it('is written, and says that undo will not know of it', async () => {
    const files = {
      's4.yaml':
        'worksheet: 1\njob: S4\ntitle: t\nopened: 2026-03-02T08:00\nzone: UTC\nstatus: open\n' +
        'packs: [position-signals@1]\nvehicle: {name: Shuttle 4, layout: four-corner-air}\n',
    };
    const { code, stdout, stderr } = await runCli(['add', 's4.yaml', 'key-on', 'LF=2.48'], {
      files,
      env: {},
    });
    expect(code).toBe(0);
    expect(stdout).toContain('snapshot key-on (1 reading)');
    expect(stderr).toBe('cornerwise: this cannot be put on record, so that undo will not know of it\n');
  });
});

describe('a reading far outside of anything possible', () => {
  const person = async (words: readonly string[], answers: readonly string[]) => {
    const folder = await job();
    const outcome = await folder.run(['add', 's4.yaml', 'key-on', ...words, ...now], {
      person: true,
      stdin: answers.map((one) => `${one}\n`).join(''),
    });
    return { ...outcome, text: tail(await folder.read('s4.yaml')) };
  };

  it('is an error where nobody sits, which says how to insist', async () => {
    const said = (await refuse('key-on', 'battery=12310', 'tank=96bar', 'air=80')).replace(/\s+/gu, ' ');
    expect(said).toContain(
      'battery=12310: 12310 V is far outside of anything possible here did you mean 12.31 V or 12310 mV? Write 12310! to keep it; it is judged once it was read twice',
    );
    expect(said).toContain('tank=96bar: 96 bar is far outside');
    expect(said).toContain('air=80: 80 °C is far outside');
  });

  it('is written where somebody insists', async () => {
    const folder = await job();
    const { code } = await add(folder, 'key-on', 'battery=12310!', 'air=80!');
    expect(code).toBe(0);
    const text = tail(await folder.read('s4.yaml'));
    expect(text).toContain('battery: 12310.00 V');
    expect(text).toContain('air: 80 °C');
  });

  it('is asked about on a terminal, and typed anew or kept', async () => {
    const { code, stdout, text } = await person(
      ['battery=12310', 'LF=248', 'tank=96'],
      ['', '12.31', '249', '!'],
    );
    expect(code).toBe(0);
    expect(stdout).toContain('battery: 12310 V? 12.31 V, 12310 mV or ! to keep it: 12.31\n');
    expect(stdout).toContain('LF: 249 V? 2.49 V, 249 mV or ! to keep it: !\n');
    expect(text).toContain('battery: 12.31 V\n      position: {LF: 249 V}\n      tank: 96 psi\n');
  });

  it('writes nothing where no answer comes', async () => {
    const { code, stderr, text } = await person(['battery=12310'], []);
    expect([code, stderr, text]).toEqual([2, 'cornerwise: stopped; nothing was written\n', '']);
  });
});

describe('words without a name', () => {
  it('are taken for what they can only be of', async () => {
    const folder = await job();
    const { code } = await add(
      folder,
      'ign-on',
      'Level',
      'empty',
      '8C',
      'disabled',
      'c1a21:signal-range',
      'LF=2.5',
    );
    expect(code).toBe(0);
    expect(tail(await folder.read('s4.yaml'))).toBe(`snapshots:
  - id: key-on
    at: 2026-03-02T18:00
    state: key-on
    conditions: {floor: level, load: empty, air: 8 °C, levelling: disabled}
    readings:
      position: {LF: 2.5 V}
    codes:
      - {code: C1A21, status: stored, means: signal-range}
`);
  });

  it('are asked for their name where they may be of several things', async () => {
    const said = (await refuse('key-on', 'on', 'LF=2.5')).replace(/\s+/gu, ' ');
    expect(said).toContain(
      'on: "on" may be said of several things write one of maintainer=on, heavy-load=on,',
    );
    expect(await refuse('key-on', 'level', 'floor=sloped')).toContain('floor is given twice');
  });
});

describe('a vehicle that the limits are not for', () => {
  it('is told so of the readings that were added', async () => {
    const folder = await makeFolder({
      's4.yaml': emptyJob.replace('layout: four-corner-air', 'layout: four-corner-air\n  system: 24 V'),
    });
    const { stdout } = await add(folder, 'key-on', 'supply=24.2', 'LF=2.5');
    expect(stdout.replace(/\s+/gu, ' ')).toContain(
      'Not judged wants floor: level, and the snapshot does not state it: Signal near the middle at ride height (LF) these limits are for system 12 V, and this vehicle has 24 V: Supply below its ceiling',
    );
  });
});
