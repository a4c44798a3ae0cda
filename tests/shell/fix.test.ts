import { describe, expect, it } from 'vitest';
import { emptyJob, type Folder, makeFolder, refusal } from '../support/folder.ts';

const read = `snapshots:
  - id: as-found
    at: 2026-03-02T08:40
    state: key-on
    readings:
      supply: 12.40 V
      battery: 12310 V   # the old meter
      position: {LF: 2.50 V, RF: 2.52 V, LR: 2.48 V, RR: 2.51 V}
    lamp: off
    codes:
      - {code: C1A21, status: stored, means: signal-range}
  - id: running
    at: 2026-03-02T08:50
    state: running
    conditions: {floor: level}
    readings: {battery: 14.10 V}
`;
const job = (text = emptyJob + read): Promise<Folder> => makeFolder({ 's4.yaml': text });
const now = ['--as-of', '2026-03-02T18:00'];
const fix = (folder: Folder, ...words: readonly string[]) => folder.run(['fix', 's4.yaml', ...words, ...now]);
const refuse = async (...words: readonly string[]): Promise<string> =>
  (await refusal(await job(), ['fix', 's4.yaml', ...words, ...now])).replace(/\s+/gu, ' ');

describe('a snapshot that is put right', () => {
  it('keeps what stood there in a comment on its line, with the time', async () => {
    const folder = await job();
    const { code, stdout } = await fix(
      folder,
      'as-found',
      'battery=12.31',
      'FR=2.25',
      'lamp=on',
      'code=C1A21:present',
      'level',
      'load=empty',
    );
    expect(code).toBe(0);
    expect(await folder.read('s4.yaml')).toBe(
      (emptyJob + read)
        .replace(
          'battery: 12310 V   # the old meter',
          'battery: 12.31 V   # the old meter   # battery was 12310 V, corrected 2026-03-02 18:00',
        )
        .replace(
          'RF: 2.52 V, LR: 2.48 V, RR: 2.51 V}',
          'RF: 2.25 V, LR: 2.48 V, RR: 2.51 V}   # position.RF was 2.52 V, corrected 2026-03-02 18:00',
        )
        .replace('lamp: off', 'lamp: on   # lamp was off, corrected 2026-03-02 18:00')
        .replace(
          '{code: C1A21, status: stored, means: signal-range}',
          '{code: C1A21, status: present, means: signal-range}   # C1A21 was {code: C1A21, status: stored, means: signal-range}, corrected 2026-03-02 18:00',
        )
        .replace('state: key-on\n', 'state: key-on\n    conditions: {floor: level, load: empty}\n'),
    );
    expect(stdout).toContain('s4.yaml: as-found, put right\n  battery 12.31 V (was 12310 V)');
    expect(stdout).toContain('floor level (added)');
    expect(stdout).toContain('Findings of as-found:');
    expect(stdout).toMatch(/^DO NOT RELEASE: .+\nNow: /mu);
  });

  it('has a forgotten condition beside those that it states', async () => {
    const folder = await job();
    await fix(folder, 'running', 'load=empty', 'floor=sloped');
    expect(await folder.read('s4.yaml')).toContain(
      'conditions: {floor: sloped, load: empty}   # floor was level, corrected 2026-03-02 18:00\n',
    );
  });

  it('can be taken back, byte for byte', async () => {
    const folder = await job();
    await fix(folder, 'as-found', 'battery=12.31', 'LF=2.4', 'LR=2.4', 'level', 'empty');
    const { stdout } = await folder.run(['undo', 's4.yaml']);
    expect(stdout).toBe('s4.yaml: took back fix as-found (battery, position.LF, position.LR, floor, load)\n');
    expect(await folder.read('s4.yaml')).toBe(emptyJob + read);
  });

  it('may stand at the top of the file, in the spelling of the command line', async () => {
    const folder = await job(
      'vehicle: Shuttle 7\nopened: 2026-03-02T08:00\nreadings: {supply: 12.2, FL: 248, spring.RL: 60, lamp: on}\ncodes: [C1A21]\n',
    );
    const { code, stderr } = await fix(
      folder,
      'key-on',
      'LF=2.48',
      'lamp=off',
      'code=C1A21:present',
      'level',
    );
    expect([code, stderr]).toEqual([0, '']);
    expect(await folder.read('s4.yaml')).toBe(
      'vehicle: Shuttle 7\nopened: 2026-03-02T08:00\nconditions: {floor: level}\nreadings: {supply: 12.2, FL: 2.48 V, spring.RL: 60, lamp: off}   # position.LF was 248, corrected 2026-03-02 18:00   # lamp was on, corrected 2026-03-02 18:00\ncodes: [{code: C1A21, status: present}]   # C1A21 was C1A21, corrected 2026-03-02 18:00\n',
    );
  });

  it('asks about a reading that nobody would believe where somebody sits', async () => {
    const folder = await job();
    const { code, stdout } = await folder.run(['fix', 's4.yaml', 'as-found', 'LF=250', ...now], {
      person: true,
      stdin: '2.49\n',
    });
    expect(code).toBe(0);
    expect(stdout).toContain('LF: 250 V? 2.5 V, 250 mV or ! to keep it: 2.49\n');
    expect(await folder.read('s4.yaml')).toContain('{LF: 2.49 V, ');
  });
});

describe('what cannot be put right', () => {
  it.each([
    [['asfound', 'LF=2.4'], 'no snapshot is called "asfound" did you mean as-found?'],
    [['morning', 'LF=2.4'], 'no snapshot is called "morning" there are as-found, running'],
    [
      ['as-found', 'tank=96'],
      'tank: as-found says nothing of tank it has supply, battery, LF, RF, LR, RR, lamp; what was read later is a snapshot of its own',
    ],
    [['running', 'lamp=on'], 'lamp: running says nothing of lamp it has battery; what was read later'],
    [['as-found', 'code=C1A33'], 'C1A33: as-found says nothing of C1A33 it has C1A21'],
    [['running', 'code=C1A33'], 'running says nothing of C1A33 it has no codes'],
    [['as-found', 'code=none'], 'a code list that was read is not emptied'],
    [['as-found', 'LF=2.50'], 'position.LF of as-found is 2.50 V already leave it out'],
    [['as-found', 'LF=250'], 'LF=250: 250 V is far outside of anything possible here'],
    [['as-found', 'tnak=96'], 'nothing is called "tnak" did you mean tank?'],
    [['as-found'], 'no reading is given'],
  ] as const)('%j: %s', async (words, message) => {
    expect(await refuse(...words)).toContain(message);
  });

  it('is all told at once', async () => {
    const said = await refuse('as-found', 'tank=96', 'LF=96psi', 'code=C1A33');
    expect(said).toContain('says nothing of tank');
    expect(said).toContain('psi measures pressure');
    expect(said).toContain('says nothing of C1A33');
  });

  it('is a value of several lines, whose comments would be lost', async () => {
    const folder = await job(
      (emptyJob + read).replace(
        'supply: 12.40 V',
        'supply:\n        value: 12.40 V # seen twice\n        by: meter',
      ),
    );
    const said = await refusal(folder, ['fix', 's4.yaml', 'as-found', 'supply=12.3', ...now]);
    expect(said).toContain('supply of as-found stands in several lines');
  });

  it('is a job without snapshots', async () => {
    const said = await refusal(await job(emptyJob), ['fix', 's4.yaml', 'as-found', 'LF=2.4', ...now]);
    expect(said).toContain('the job has none yet: cornerwise add writes one');
  });
});
