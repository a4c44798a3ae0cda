import { describe, expect, it } from 'vitest';
import { emptyJob, type Folder, makeFolder, refusal } from '../support/folder.ts';

/** Everything that the packs of version 1 want read, but for one corner that is pinned low in the broken vehicle. */
const readings = (leftRear: string, lamp: string, codes: string) => `snapshots:
  - id: as-found
    at: 2026-03-02T08:40
    state: key-on
    conditions: {floor: level, load: empty, air: 10 °C}
    readings:
      supply: 12.50 V
      battery: 12.55 V
      position: {LF: 2.50 V, RF: 2.52 V, LR: ${leftRear}, RR: 2.51 V}
      tank: 120 psi
    lamp: ${lamp}
    codes: ${codes}
  - {id: cranking, at: 2026-03-02T08:42, state: cranking, conditions: {air: 10 °C}, readings: {battery: 10.6 V}}
  - id: running
    at: 2026-03-02T08:45
    state: running
    conditions: {floor: level, load: empty, air: 10 °C}
    readings:
      supply: 14.30 V
      battery: 14.40 V
      position: {LF: 2.50 V, RF: 2.52 V, LR: ${leftRear}, RR: 2.51 V}
log:
  - {at: 2026-03-02T08:30, did: completed, what: verify-complaint}
`;
const sound = readings('2.48 V', 'off', '[]');
const broken = readings('0.10 V', 'on', '[{code: C3101, status: stored}]');

const shop = `packs: [position-signals@1, supply-charging@1, air-supply@1, module-replacement@1, handover@1, corner-suspects@1.1.0]
zone: Europe/Dublin
labour-rate: 85 / h
`;
const folderWith = (text: string, more = ''): Promise<Folder> =>
  makeFolder({ 's4.yaml': emptyJob + text, 'cornerwise.yaml': shop + more });
const now = ['--as-of', '2026-03-02T18:00'];
const log = (folder: Folder, ...words: readonly string[]) => folder.run(['log', 's4.yaml', ...words, ...now]);

/** An entry that its hold point does not allow: exit code 1, the file as it was. */
const held = async (folder: Folder, ...words: readonly string[]): Promise<string> => {
  const before = await folder.read('s4.yaml');
  const { code, stdout, stderr } = await log(folder, ...words);
  expect([code, stdout]).toEqual([1, '']);
  expect(await folder.read('s4.yaml')).toBe(before);
  return stderr;
};

describe('an entry that waits for a hold point', () => {
  it('is written where the hold point is clear', async () => {
    const folder = await folderWith(sound);
    expect((await log(folder, 'released')).code).toBe(0);
    expect(await folder.read('s4.yaml')).toContain('did: released, what: vehicle}');
    expect((await log(folder, 'closed', '--result', 'repaired')).code).toBe(0);
    expect(await folder.read('s4.yaml')).toContain('status: closed\n');
  });

  it('is refused where it is not, with every reason and what to do first', async () => {
    const stderr = await held(await folderWith(broken), 'released', 'vehicle');
    expect(stderr.replace(/\s+/gu, ' ')).toContain(
      'released vehicle was not written: "Release to the driver" is not clear',
    );
    expect(stderr).toContain('Trouble code (C3101 key-on): out');
    expect(stderr).toMatch(/First: .*\n\s+edit s4\.yaml: vehicle: sensor-sense/u);
    expect(stderr).toContain('--despite "…" --by "…"');
  });

  it('is refused for a dear part that nothing blames, and only told of a cheap one', async () => {
    const dear = await folderWith(broken);
    const refused = await held(dear, 'ordered', 'control-module');
    expect(refused.replace(/\s+/gu, ' ')).toContain('nothing that is out blames the control module');
    const cheap = await folderWith(broken);
    const { code, stdout } = await log(cheap, 'ordered', 'linkage.LR');
    expect(code).toBe(0);
    expect(stdout.replace(/\s+/gu, ' ')).toContain(
      '"Order of the part" is not clear, which does not hold so cheap a part',
    );
    await held(await folderWith(broken, 'order-hold: 20\n'), 'ordered', 'linkage.LR');
  });

  it('is written despite it, with a reason and a name that every report shows', async () => {
    const folder = await folderWith(broken);
    const words = ['released', '--despite', 'the driver insists', '--by', 'workshop lead'];
    expect((await log(folder, ...words)).code).toBe(0);
    const entry = 'did: released, what: vehicle, despite: the driver insists, by: workshop lead}';
    expect(await folder.read('s4.yaml')).toContain(entry);
    for (const command of [['check'], ['next'], ['sweep', '--format', 'json']]) {
      const { stdout } = await folder.run([command[0] ?? '', 's4.yaml', ...command.slice(1), ...now]);
      expect(stdout.replace(/\s+/gu, ' ')).toContain('the driver insists (workshop lead)');
    }
    await held(folder, 'closed', '--result', 'repaired');
  });

  it('may end without a repair, with a reason and a name, and tells what is unsafe', async () => {
    const folder = await folderWith(broken);
    const words = ['closed', '--result', 'declined', '--reason', 'too dear', '--by', 'fleet desk'];
    const { code, stdout } = await log(folder, ...words);
    expect(code).toBe(0);
    expect(stdout).toContain('Left as it is, and not safe to release');
    expect(stdout).toContain('Trouble code (C3101)');
    expect(await folder.read('s4.yaml')).toContain('status: closed\n');
    expect((await folder.run(['undo', 's4.yaml'])).code).toBe(0);
    expect(await folder.read('s4.yaml')).toBe(emptyJob + broken);
  });

  it.each([
    [['released', '--despite', 'late'], 'the log must say who says so'],
    [['closed'], 'the log must say how the job ended'],
    [
      ['repaired', 'sensor.LR', '--despite', 'late', '--by', 'lead'],
      'no hold point waits for what was repaired',
    ],
    [['repaired', 'sensor.LR', '--amount', '20'], 'an amount is what was authorised'],
    [['authorised', 'cost', '--amount', '20 EUR'], '"20 EUR" is not an amount'],
  ])('%j is a wrong call', async (words, says) => {
    const folder = await folderWith(broken);
    expect(await refusal(folder, ['log', 's4.yaml', ...words, ...now])).toContain(says);
  });

  it('says so where --despite is needless', async () => {
    const words = ['log', 's4.yaml', 'released', '--despite', 'late', '--by', 'lead', ...now];
    expect(await refusal(await folderWith(sound), words)).toContain('does not stand against this entry');
  });
});

describe('money that was authorised', () => {
  it('stands among the costs, with who allowed it', async () => {
    const folder = await folderWith(broken);
    const { code } = await log(folder, 'authorised', 'cost', '--amount', '420', '--by', 'fleet desk');
    expect(code).toBe(0);
    const text = await folder.read('s4.yaml');
    expect(text).toContain('authorised: [{at: 2026-03-02T18:00, amount: 420, by: fleet desk}]');
  });
});
