import { describe, expect, it } from 'vitest';
import { emptyJob, type Folder, makeFolder, refusal } from '../support/folder.ts';

const read = `snapshots:
  - id: as-found
    at: 2026-03-02T08:40
    state: key-on
    conditions: {floor: level, load: empty}
    readings:
      supply: 12.40 V
      position: {LF: 2.50 V, RF: 2.52 V, LR: 2.48 V, RR: 2.51 V}
    lamp: off
    codes: []
`;
const job = (): Promise<Folder> => makeFolder({ 's4.yaml': emptyJob + read });
const now = ['--as-of', '2026-03-02T18:00'];
const log = (folder: Folder, ...words: readonly string[]) => folder.run(['log', 's4.yaml', ...words, ...now]);
const refuse = async (...words: readonly string[]): Promise<string> =>
  (await refusal(await job(), ['log', 's4.yaml', ...words, ...now])).replace(/\s+/gu, ' ');
const written = async (...words: readonly string[]): Promise<string> => {
  const folder = await job();
  const { code, stderr } = await log(folder, ...words);
  expect([code, stderr]).toEqual([0, '']);
  const text = await folder.read('s4.yaml');
  expect(text.startsWith(emptyJob + read)).toBe(true);
  return text.slice(`${emptyJob}${read}`.length);
};

describe('an entry of the log', () => {
  it.each([
    [['cleared'], '{at: 2026-03-02T18:00, did: cleared, what: codes}'],
    [['drove'], '{at: 2026-03-02T18:00, did: drove, what: road-test}'],
    [['Replaced', 'Sensor.rl'], '{at: 2026-03-02T18:00, did: replaced, what: sensor.LR}'],
    [['repaired', 'linkage.fl', '--at', '10:30'], '{at: 2026-03-02T10:30, did: repaired, what: linkage.LF}'],
    [
      ['calibrated', 'ride-height', '--result', 'passed', '--at', '2026-03-02 11:10'],
      '{at: 2026-03-02T11:10, did: calibrated, what: ride-height, result: passed}',
    ],
    [
      ['waiting', 'sensor.LR', '--for', 'the parts desk', '--by', 'technician'],
      '{at: 2026-03-02T18:00, did: waiting, what: sensor.LR, for: the parts desk, by: technician}',
    ],
    [
      ['inspected', 'the roof rack', '--found', 'loose'],
      '{at: 2026-03-02T18:00, did: inspected, what: the roof rack, found: loose}',
    ],
    [
      ['inspected', 'air-line.lr', '--found', 'Fault-Seen'],
      '{at: 2026-03-02T18:00, did: inspected, what: air-line.LR, found: fault-seen}',
    ],
    [['charged', 'battery'], '{at: 2026-03-02T18:00, did: charged, what: battery}'],
    [
      ['skipped', 'verify-complaint', '--reason', 'the driver has left'],
      '{at: 2026-03-02T18:00, did: skipped, what: verify-complaint, reason: the driver has left}',
    ],
    [
      ['passed-on', '--to', 'the body shop'],
      '{at: 2026-03-02T18:00, did: passed-on, what: vehicle, to: the body shop}',
    ],
    [['completed', 'verify-complaint'], '{at: 2026-03-02T18:00, did: completed, what: verify-complaint}'],
    [['completed', 'readings/running'], '{at: 2026-03-02T18:00, did: completed, what: readings/running}'],
    [['authorised', 'cost'], '{at: 2026-03-02T18:00, did: authorised, what: cost}'],
    [['noted', 'stop'], '{at: 2026-03-02T18:00, did: noted, what: stop}'],
    [['noted', 'the', 'driver', 'rang'], '{at: 2026-03-02T18:00, did: noted, note: the driver rang}'],
    [['noted', '--note', 'a: b # c'], '{at: 2026-03-02T18:00, did: noted, note: "a: b # c"}'],
  ])('%j is written as it would be by hand', async (words, entry) => {
    expect(await written(...words)).toBe(`log:\n  - ${entry}\n`);
  });

  it('is one each where several things are named', async () => {
    expect(await written('replaced', 'sensor.LR', 'linkage.LR', '--by', 'technician')).toBe(`log:
  - {at: 2026-03-02T18:00, did: replaced, what: sensor.LR, by: technician}
  - {at: 2026-03-02T18:00, did: replaced, what: linkage.LR, by: technician}
`);
  });

  it.each(['a: b # c, "d" \u{1f642}', 'two\nlines', "it's [so] {so}", '- dash', 'true', '12'])(
    'keeps the note %j, and takes another after it',
    async (note) => {
      const folder = await job();
      expect((await log(folder, 'noted', '--note', note)).code).toBe(0);
      expect((await log(folder, 'noted', '--note', note)).code).toBe(0);
      const text = (await folder.read('s4.yaml')).slice(`${emptyJob}${read}`.length);
      expect(text.match(/did: noted/gu)).toHaveLength(2);
      expect((await folder.run(['check', 's4.yaml', ...now])).code).not.toBe(2);
    },
  );

  it('prints nothing with --quiet', async () => {
    expect(await log(await job(), 'cleared', '--quiet')).toEqual({ code: 0, stdout: '', stderr: '' });
  });
});

describe('what an entry leads to', () => {
  it('is told: what work has made stale, what is to be done, which hold points are not clear', async () => {
    const { stdout } = await log(
      await job(),
      'replaced',
      'sensor.LR',
      '--by',
      'technician',
      '--note',
      'old part: #2',
    );
    expect(stdout).toContain(
      's4.yaml: replaced sensor.LR, 2026-03-02 18:00, written\n  by technician · note old part: #2',
    );
    expect(stdout).toContain('  older than this: position LF LR RF RR; "Road test" is not clear any more');
    expect(stdout).toMatch(/^DO NOT RELEASE: .+\nNow: /mu);
  });

  it('is told: what has to be done again', async () => {
    const folder = await job();
    await log(folder, 'replaced', 'sensor.LR', '--at', '10:00');
    await log(folder, 'calibrated', 'ride-height', '--at', '11:00');
    const { stdout } = await log(folder, 'replaced', 'sensor.RR', '--at', '12:00');
    expect(stdout).toContain('written\n  "Ride-height learn" has to be done again\n');
  });

  it('is told: what an entry has done', async () => {
    const folder = await job();
    const { stdout } = await log(folder, 'completed', 'verify-complaint');
    expect(stdout).toContain('written\n  "Verify the complaint, history, modifications and tyres" is done\n');
    const again = await log(folder, 'noted', '--note', 'x');
    expect(again.stdout).toMatch(/written\n {2}note x\n\nShuttle 4 · /u);
  });
});

describe('a line that is wrong', () => {
  it.each([
    [['replacd', 'sensor.LR'], '"replacd" is not something that a log can say', 'did you mean replaced?'],
    [
      ['bungled', 'sensor.LR'],
      '"bungled" is not something that a log can say',
      'it can be tested, inspected,',
    ],
    [['', 'sensor.LR'], 'nothing is typed here', 'it can be tested, inspected,'],
    [['replaced', 'sensro.LR'], 'is called "sensro.LR"', 'did you mean sensor.LR?'],
    [['replaced', 'exhaust'], 'is called "exhaust"', 'name a component such as sensor.LR'],
    [['replaced', ''], 'is called ""', 'name a component such as sensor.LR'],
    [['replaced', '\u001b[31m'], 'nothing in this job', 'name a component'],
    [['replaced'], 'replaced: the log must say what was replaced', 'name a component such as sensor.LR'],
    [['tested'], 'the log must say what was tested', 'a step or a test'],
    [['completed'], 'the log must say what was completed', 'a step or a test'],
    [['noted'], 'the log must say what was noted', 'write it after the verb'],
    [['replaced', 'sensor'], 'the log must say which sensor was replaced', 'write sensor.LF, sensor.RF'],
    [['replaced', 'sensor.LR', 'sensor.rl'], 'sensor.LR: this is given twice', 'leave one of the two out'],
    [['authorised', '200'], 'is called "200"', 'name a component'],
    [['cleared', '--at', '19:00'], '--at 19:00: 2026-03-02 19:00 is after now', 'give the day, too'],
    [['cleared', '--at', '2026-03-02'], '--at 2026-03-02: "2026-03-02" has no time of day', 'T08:40'],
    [['cleared', '--at', '2025-03-30T01:30'], 'skip 01:30 on 2025-03-30', 'write 2025-03-30T02:30'],
    [['inspected', 'air-line.LR', '--found', 'bent'], 'is not what an eye can say', 'it can be fault-seen'],
    [['inspected', 'air-line'], 'the log must say which air-line was inspected', 'write air-line.LF'],
    [['skipped', 'sensor.LR', '--reason', 'x'], 'only a test or a step can be skipped', 'name a test'],
    [['skipped', 'verify-complaint'], 'skipped: the log must say why', 'add --reason'],
    [['passed-on'], 'passed-on: the log must say to whom', 'add --to'],
    [['closed', '--result', 'towed', '--by', 'x'], 'closed: the log must say why', 'add --reason'],
    [['closed', '--result', 'gone'], '"gone" is not how a job ends', 'it can be repaired'],
    [['cleared', '--result', 'maybe'], '--result maybe: "maybe" is not a result', 'it can be passed, failed'],
    [['cleared', '--by', ''], '--by: nothing is written here', 'leave it out'],
    [
      ['cleared', '--by', 'x'.repeat(121)],
      '--by: this has 121 characters, and the limit is 120',
      'shorten it',
    ],
    [['cleared', '--found', 'x'.repeat(121)], '--found: this has 121 characters', 'shorten it'],
    [['cleared', '--for', ' '], '--for: nothing is written here', 'leave it out'],
    [['noted', '--note', 'a\u001b[31mb'], '--note: it holds the invisible character U+001B', 'remove it'],
    [['noted', '--note', 'x'.repeat(4001)], '--note: this has 4001 characters', 'shorten it'],
  ])('%j is refused with what to write', async (words, message, hint) => {
    const said = await refuse(...words);
    expect(said).toContain(message);
    expect(said).toContain(hint);
    expect(said).not.toContain('\u001b');
  });

  it('is told in full', async () => {
    const said = await refuse(
      'replaced',
      'sensro.LR',
      'linkage',
      '--at',
      '19:00',
      '--by',
      '',
      '--result',
      'x',
    );
    expect(said.match(/cornerwise: /gu)).toHaveLength(5);
  });

  it.each([
    ['nothing.yaml', 'there is no such file: nothing.yaml'],
    ['-', 'a job on standard input cannot be written back'],
    ['.', 'this is a folder, not a file'],
    ['cornerwise.yaml', 'missing required key "vehicle"'],
  ])('of the file %s is refused: %s', async (file, message) => {
    expect(await refusal(await job(), ['log', file, 'cleared', ...now])).toContain(message);
  });
});

describe('what an entry leaves open', () => {
  const newPacks = `packs: [position-signals@2, body-heights@1, supply-charging@2, air-supply@2, module-replacement@1, handover@2, corner-suspects@2]
zone: Europe/Dublin
`;
  const asked = async (words: readonly string[], answers: readonly string[]) => {
    const folder = await makeFolder({ 's4.yaml': emptyJob + read, 'cornerwise.yaml': newPacks });
    const { code, stdout, stderr } = await folder.run(['log', 's4.yaml', ...words, ...now], {
      stdin: answers.map((one) => `${one}\n`).join(''),
      person: true,
    });
    const text = await folder.read('s4.yaml');
    return { code, stdout, stderr, entry: text.slice(`${emptyJob}${read}log:\n  - `.length).trimEnd() };
  };

  it('is asked for: the corner of a test, and what it found', async () => {
    const { stdout, entry } = await asked(['tested', 'arm-by-hand'], ['lr', '2']);
    expect(stdout).toContain('   3 arm-by-hand.LR  ');
    expect(stdout).toContain('which arm-by-hand (number or word; Ctrl-D stops): lr\n');
    expect(entry).toMatch(/^\{at: 2026-03-02T18:00, did: tested, what: arm-by-hand\.LR, found: \S+\}$/u);
  });

  it('is asked for by the words of a title, and again until it is one of those', async () => {
    const { stdout, entry } = await asked(['replaced', 'spring'], ['7', 'spring', '3']);
    expect(stdout).toContain('    "7" is none of these; write a number from 1 to 4\n');
    expect(entry).toBe('{at: 2026-03-02T18:00, did: replaced, what: air-spring.LR}');
  });

  it('is asked for only at the corners that the vehicle has', async () => {
    const folder = await makeFolder({
      's4.yaml': emptyJob.replace('four-corner-air', 'rear-air-assist'),
      'cornerwise.yaml': newPacks,
    });
    const { stdout } = await folder.run(['log', 's4.yaml', 'tested', 'soap-fittings', ...now], {
      person: true,
    });
    expect(stdout).toContain('soap-fittings.LR');
    expect(stdout).not.toContain('soap-fittings.LF');
  });

  it('leaves the file as it was where no answer comes', async () => {
    const { code, stderr, entry } = await asked(['tested', 'arm-by-hand'], []);
    expect([code, stderr]).toEqual([2, 'cornerwise: stopped; nothing was written\n']);
    expect(entry).toBe('');
  });

  it('may stay open where it is what a test found', async () => {
    const { entry } = await asked(['tested', 'arm-by-hand.LR'], ['']);
    expect(entry).toBe('{at: 2026-03-02T18:00, did: tested, what: arm-by-hand.LR}');
  });

  it('is an error that names the choices where nobody sits', async () => {
    const folder = await makeFolder({ 's4.yaml': emptyJob, 'cornerwise.yaml': newPacks });
    const told = async (...words: readonly string[]): Promise<string> =>
      (await refusal(folder, ['log', 's4.yaml', ...words, ...now])).replace(/\s+/gu, ' ');
    expect(await told('tested', 'arm-by-hand')).toContain(
      'the log must say which arm-by-hand was tested write arm-by-hand.LF, arm-by-hand.RF, arm-by-hand.LR, arm-by-hand.RR',
    );
    expect(await told('replaced', 'spring')).toContain(
      'nothing in this job\'s packs is called "spring" did you mean air-spring.LF, air-spring.RF, air-spring.LR, air-spring.RR?',
    );
    expect(await told('replaced', 'spring.rl')).toContain('did you mean air-spring.LR?');
    expect(await told('learned', 'ride-height')).toContain('did you mean calibrated ride-height?');
  });
});
