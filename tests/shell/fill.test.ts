import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { emptyJob, type Folder, makeFolder, refusal } from '../support/folder.ts';
import { longTests } from '../support/long-tests.ts';
import type { Outcome } from '../support/run.ts';

const job = (text = emptyJob): Promise<Folder> => makeFolder({ 's4.yaml': text });
const at = (clock: string): readonly string[] => ['--as-of', `2026-03-02T${clock}`];
const fill = (
  folder: Folder,
  lines: readonly string[],
  flags: readonly string[] = at('18:00'),
  person = false,
): Promise<Outcome> =>
  folder.run(['fill', 's4.yaml', ...flags], {
    stdin: lines.map((line) => `${line}\n`).join(''),
    person,
  });

/** The questions of a session, as far as they were asked, without their answers. */
const questions = (stdout: string): string[] =>
  stdout
    .split('\n')
    .map(
      (line) =>
        /^ {2}(?! )(?!CAUTION)([A-Za-z][\w.-]*(?: code)?)(?: \(.*?\))?(?:, [^ ,]+)?(?: \[.*\])?: /u.exec(
          `${line} `,
        )?.[1],
    )
    .filter((question) => question !== undefined)
    .filter((question) => !/^(?:key-on|cranking|running|rest|driving)$/u.test(question));

const headings = (stdout: string): string[] =>
  stdout.split('\n').filter((line) => /^[A-Z][a-z ,]+: \d+ to ask for/u.test(line));

/** A whole session of a sound vehicle, in the order in which it is asked. */
const session = [
  'level',
  'empty',
  'off',
  '2.50',
  '2.52',
  '2.48',
  '2.51',
  '12.40',
  'none',
  '12.45',
  '130',
  '8',
  '10.9',
  '8',
  '14.2',
];

const whole = async (): Promise<{ text: string; outcome: Outcome }> => {
  const folder = await job();
  const outcome = await fill(folder, session);
  return { text: await folder.read('s4.yaml'), outcome };
};

describe('a session of questions', () => {
  it('asks for what the packs want, key-on, then cranking, then running', async () => {
    const { outcome } = await whole();
    expect([outcome.code, outcome.stderr]).toEqual([0, '']);
    expect(headings(outcome.stdout).map((line) => line.replace(/:.*$/u, ''))).toEqual([
      'Key on, engine off',
      'Cranking',
      'Engine running',
    ]);
    expect(questions(outcome.stdout)).toEqual([
      'floor',
      'load',
      'lamp',
      'LF',
      'RF',
      'LR',
      'RR',
      'supply',
      'code',
      'battery',
      'tank',
      'air',
      'battery',
      'air',
      'battery',
    ]);
  });

  it('writes what was answered, a snapshot for each state', async () => {
    const { text } = await whole();
    expect(text.startsWith(emptyJob)).toBe(true);
    expect(text.slice(emptyJob.length)).toBe(`snapshots:
  - id: key-on
    at: 2026-03-02T18:00
    state: key-on
    conditions: {floor: level, load: empty}
    readings:
      position: {LF: 2.50 V, RF: 2.52 V, LR: 2.48 V, RR: 2.51 V}
      supply: 12.40 V
      battery: 12.45 V
      tank: 130 psi
    lamp: off
    codes: []
  - id: cranking
    at: 2026-03-02T18:00
    state: cranking
    conditions: {air: 8 °C}
    readings:
      battery: 10.90 V
  - id: running
    at: 2026-03-02T18:00
    state: running
    conditions: {air: 8 °C}
    readings:
      battery: 14.20 V
`);
  });

  it('ends by itself, with what it changed and nothing left', async () => {
    const { outcome } = await whole();
    expect(outcome.stdout).toContain('15 answers saved.');
    expect(outcome.stdout).toMatch(
      /saved\.\n {2}".*" is (?:done|clear).*\n\nThe packs want no more readings\.\n\nShuttle 4 · /u,
    );
    expect(outcome.stdout).toContain('The packs want no more readings.');
    expect(outcome.stdout).not.toContain('Stopped');
  });

  it('says of each reading how it was understood and what the checks make of it', async () => {
    const { stdout } = await fill(await job(), ['level', 'empty', 'on', '2,5', '0.1', '1.12/1.13']);
    expect(stdout).toContain('OUT hold');
    expect(stdout).toContain('Warning lamp');
    expect(stdout).toMatch(/: 2,5\n {4}2\.5 V; within/u);
    expect(stdout).toMatch(
      /: 0\.1\n {4}0\.1 V\n {4}OUT hold Signal clear of both rails RF: 0\.10 V, should be/u,
    );
    expect(stdout).toMatch(/: 1\.12\/1\.13\n {4}1\.12 V, 1\.13 V, repeats\n/u);
  });

  it('says of a code what it means for the job, and asks for the next', async () => {
    const folder = await job();
    const lines = [...session.slice(0, 8), 'c1a21:present', 'C1A22:stord', 'C1A22', '', ...session.slice(9)];
    const { stdout } = await fill(folder, lines, at('18:00'), true);
    expect(stdout).toMatch(/: c1a21:present\n {4}C1A21 present\n {4}OUT hold Trouble code C1A21\n/u);
    expect(stdout).toContain(
      'another code (Enter if there are no more): C1A22:stord\n    "stord" is neither',
    );
    const text = await folder.read('s4.yaml');
    expect(text).toContain('      - {code: C1A21, status: present}\n      - {code: C1A22, status: stored}\n');
    expect(text).toContain('tank: 130 psi');
    expect(text).toContain('battery: 14.20 V');
  });

  it('gives each caution once, before the first question that it belongs to', async () => {
    const { outcome } = await whole();
    expect(outcome.stdout.match(/CAUTION: Air that is shared/gu)).toHaveLength(1);
    expect(outcome.stdout.indexOf('CAUTION: Air that is shared')).toBeLessThan(
      outcome.stdout.indexOf('tank pressure'),
    );
  });
});

describe('answers', () => {
  it('that cannot be read end a session that nobody sits at, so that none lands at another question', async () => {
    const folder = await job();
    const { code, stdout, stderr } = await fill(folder, ['level', 'empty', 'off', '2.4x', '2.55', '1.12']);
    expect(code).toBe(2);
    expect(stderr.replace(/\s+/gu, ' ')).toContain(
      '"x" is not a known unit; it and the answers after it were not taken',
    );
    expect(stdout).toContain('3 answers saved.');
    const text = await folder.read('s4.yaml');
    expect(text).toContain('lamp: off');
    expect(text).not.toContain('2.55');
  });

  it('that cannot be read are asked for again where somebody sits', async () => {
    const folder = await job();
    const lines = ['levle', 'level', 'full', 'empty', 'bright', 'off', '12psi', '02.5', '2.50'];
    const { stdout } = await fill(folder, lines, at('18:00'), true);
    expect(stdout).toContain('    "levle" is not a word for floor; did you mean level?\n  floor (');
    expect(stdout).toContain('"full" is not a word for load');
    expect(stdout).toContain('psi measures pressure, and a voltage is wanted here; it can be V, mV');
    expect(stdout).toContain('"02.5" has a leading zero; write 2.5');
    expect(await folder.read('s4.yaml')).toContain('position: {LF: 2.50 V}');
  });

  it('that are empty skip, and are not asked for again in this session', async () => {
    const folder = await job();
    const { stdout, code } = await fill(
      folder,
      Array.from({ length: 60 }, () => ''),
    );
    expect(code).toBe(0);
    expect(stdout).toContain('Nothing was written.');
    expect(questions(stdout)).toHaveLength(session.length);
    expect(await folder.read('s4.yaml')).toBe(emptyJob);
    expect(stdout).toContain('Still to take');
  });

  it('in words say why there is no reading', async () => {
    const folder = await job();
    const { stdout } = await fill(folder, [...session.slice(0, 10), 'gauge: broken #2']);
    expect(stdout).toContain('not taken: gauge: broken #2');
    expect(await folder.read('s4.yaml')).toContain('tank: {why: "gauge: broken #2"}');
  });

  it('that go back take back what was saved, and ask again', async () => {
    const folder = await job();
    const { stdout } = await fill(folder, [
      'level',
      'loaded',
      '<',
      'empty',
      'off',
      '2.50',
      '9.99',
      '<',
      '<',
      '2.51',
      '2.52',
    ]);
    const text = await folder.read('s4.yaml');
    expect(text).toContain('conditions: {floor: level, load: empty}');
    expect(text).toContain('position: {LF: 2.51 V, RF: 2.52 V}');
    expect(stdout).toContain('7 answers saved.'.replace('7', '5'));
  });

  it('that go back to the beginning of a snapshot leave none behind', async () => {
    const folder = await job();
    const { stdout } = await fill(folder, ['level', '<', '<', '-']);
    expect(stdout).toContain('This is the first question: there is none to go back to.');
    expect(await folder.read('s4.yaml')).toBe(emptyJob);
  });

  it('that go back over a skipped one ask that again', async () => {
    const folder = await job();
    await fill(folder, ['', '', 'off', '<', '<', 'empty', 'on']);
    const text = await folder.read('s4.yaml');
    expect(text).toContain('conditions: {load: empty}');
    expect(text).toContain('lamp: on');
  });

  it('that go back over a list of codes take back one code each', async () => {
    const folder = await job();
    await fill(folder, [...session.slice(0, 8), 'C1A21', 'C1A22', '<', 'C1A23', '', '12.45']);
    const text = await folder.read('s4.yaml');
    expect(text).toContain('      - {code: C1A21, status: stored}\n      - {code: C1A23, status: stored}\n');
    expect(text).not.toContain('C1A22');
    expect(text).toContain('battery: 12.45 V');
  });

  it('are printed without what a terminal would obey in what is said of them', async () => {
    const folder = await job();
    const { stdout } = await fill(folder, ['lev\u001b[31mel', 'level'], at('18:00'), true);
    expect(stdout).not.toContain('\u001b');
    expect(stdout).toContain('"lev<1B>[31mel" is not a word for floor');
    expect(await folder.read('s4.yaml')).not.toContain('\u001b');
  });
});

describe('answers that end', () => {
  const codes = [...session.slice(0, 8), 'C1A21', 'C1A22:present', '', ...session.slice(9)];

  // One end in each kind of question and on either side of a list and of a snapshot; the long way ends at every line.
  const ends = longTests ? codes.map((_, count) => count) : [0, 1, 3, 7, 8, 9, 10, 11, 13, 16];

  it.each(ends)(
    'after %i lines lose nothing, and a second session goes on where it stopped',
    async (count) => {
      const folder = await job();
      const first = await fill(folder, codes.slice(0, count));
      expect([first.code, first.stderr]).toEqual([0, '']);
      expect(first.stdout).toContain('Stopped.');
      const before = await folder.read('s4.yaml');
      // A list of codes that was begun counts as read: what came of it is there.
      const listed = count >= 9 && count < 11;
      const rest = listed ? codes.slice(11) : codes.slice(count);
      const second = await fill(folder, rest, at('18:20'));
      expect([second.code, second.stderr]).toEqual([0, '']);
      expect(second.stdout).toContain('The packs want no more readings.');
      const after = await folder.read('s4.yaml');
      for (const line of before.split('\n').filter((one) => !/[{}]/u.test(one)))
        expect(after).toContain(line);
      expect(after).toContain('conditions: {floor: level, load: empty}');
      expect(after).toContain('position: {LF: 2.50 V, RF: 2.52 V, LR: 2.48 V, RR: 2.51 V}');
      expect(after.match(/- id: /gu)).toHaveLength(3);
      if (count >= 9) expect(after).toContain('- {code: C1A21, status: stored}');
      if (count > 0 && count < 12) expect(second.stdout).toContain('; going on with key-on');
    },
  );

  it('in the middle of a line count as a line', async () => {
    const folder = await job();
    await folder.run(['fill', 's4.yaml', ...at('18:00')], { stdin: 'level\nemp' });
    expect(await folder.read('s4.yaml')).toContain('conditions: {floor: level}');
    await folder.run(['fill', 's4.yaml', ...at('18:00')], { stdin: 'empty' });
    expect(await folder.read('s4.yaml')).toContain('conditions: {floor: level, load: empty}');
  });
});

describe('a second session', () => {
  it('begins new snapshots after half an hour', async () => {
    const folder = await job();
    await fill(folder, ['level', 'empty', 'off'], at('10:00'));
    const { stdout } = await fill(folder, ['level', 'empty', '2.50'], at('10:31'));
    expect(stdout).not.toContain('going on with');
    expect(await folder.read('s4.yaml')).toContain('- id: key-on-2');
  });

  it('begins new snapshots once something was done to the vehicle', async () => {
    const folder = await job();
    await fill(folder, ['level', 'empty', 'off'], at('10:00'));
    await folder.run(['log', 's4.yaml', 'cleared', ...at('10:05')]);
    const { stdout } = await fill(folder, ['level'], at('10:10'));
    expect(stdout).not.toContain('going on with');
    expect(await folder.read('s4.yaml')).toContain('- id: key-on-2');
  });

  it('begins new snapshots with --new', async () => {
    const folder = await job();
    await fill(folder, ['level', 'empty', 'off'], at('10:00'));
    await fill(folder, ['level'], ['--new', ...at('10:01')]);
    expect(await folder.read('s4.yaml')).toContain('- id: key-on-2');
  });

  it('does not ask for what waits for work, unless it is told to', async () => {
    const folder = await job();
    await fill(folder, session, at('09:00'));
    await folder.run(['log', 's4.yaml', 'replaced', 'sensor.LR', ...at('10:00')]);
    const { stdout } = await fill(folder, ['level', 'empty'], at('10:10'));
    expect(questions(stdout)).toEqual([]);
    const said = stdout.replace(/\s+/gu, ' ');
    expect(said).toMatch(/key-on: [^()]*position\.LR[^()]*\(waits for Ride-height learn \(height-learn\)\)/u);
    expect(said).toMatch(/running: [^()]*battery[^()]*\(waits for Ride-height learn \(height-learn\)\)/u);
    const all = await fill(
      folder,
      Array.from({ length: 80 }, () => ''),
      ['--all', ...at('10:20')],
    );
    expect(questions(all.stdout)).toContain('LR');
  });

  it('has nothing to ask where all is read', async () => {
    const folder = await job();
    await fill(folder, session);
    const before = await folder.read('s4.yaml');
    const { code, stdout } = await fill(folder, ['12.3', '12.4']);
    expect(code).toBe(0);
    expect(questions(stdout)).toEqual([]);
    expect(stdout).toContain('Nothing was written.\n\nThe packs want no more readings.');
    expect(await folder.read('s4.yaml')).toBe(before);
  });
});

describe('a session that cannot begin', () => {
  it.each([
    ['nothing.yaml', 'there is no such file'],
    ['-', 'standard input is for the answers'],
    ['folder', 'this is a folder, not a file'],
    ['cornerwise.yaml', 'missing required key "vehicle"'],
    ['broken.yaml', 'a bracket is not closed'],
    ['other.yaml', 'no check of this job concerns this vehicle'],
  ])('%s: %s', async (file, message) => {
    const folder = await makeFolder({
      'broken.yaml': 'worksheet: [1',
      'other.yaml': emptyJob
        .replace('four-corner-air', 'four-corner-sensors')
        .replace('status: open', 'status: open\npacks: [air-supply@1]'),
    });
    await mkdir(join(folder.path, 'folder'));
    const argv = ['fill', file, ...at('18:00')];
    expect((await refusal(folder, argv, { stdin: 'level\n' })).replace(/\s+/gu, ' ')).toContain(message);
  });
});
