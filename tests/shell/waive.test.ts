import { describe, expect, it } from 'vitest';
import { emptyJob, type Folder, makeFolder, refusal } from '../support/folder.ts';

const read = `snapshots:
  - id: as-found
    at: 2026-03-02T08:40
    state: key-on
    conditions: {floor: level, load: empty}
    readings:
      supply: 12.40 V
      position: {LF: 2.50 V, RF: 2.52 V, LR: 1.12 V, RR: 2.51 V}
    lamp: on
    codes:
      - {code: C1A21, status: stored}
`;
const job = (): Promise<Folder> => makeFolder({ 's4.yaml': emptyJob + read });
const now = ['--as-of', '2026-03-02T18:00'];
const said = ['--reason', 'bulb on order', '--by', 'workshop lead', '--until', '2026-03-09'];
const waive = (folder: Folder, ...words: readonly string[]) =>
  folder.run(['waive', 's4.yaml', ...words, ...now]);
const refuse = async (...words: readonly string[]): Promise<string> =>
  (await refusal(await job(), ['waive', 's4.yaml', ...words, ...now])).replace(/\s+/gu, ' ');

describe('a finding that is accepted', () => {
  it.each([
    ['handover/lamp', 'handover/lamp'],
    ['lamp', 'handover/lamp'],
    ['LAMP:lamp', 'handover/lamp:lamp'],
    ['stored-code:c1a21', 'handover/stored-code:C1A21'],
    ['handover/stored-code:C1A21@as-found', 'handover/stored-code:C1A21'],
  ])('%s is written with reason, name, end and the version that it holds under', async (typed, finding) => {
    const folder = await job();
    const { code, stdout, stderr } = await waive(folder, typed, ...said);
    expect([code, stderr]).toEqual([0, '']);
    const text = await folder.read('s4.yaml');
    expect(text).toBe(
      `${emptyJob}${read}waivers:\n  - {finding: ${finding}, reason: bulb on order, by: workshop lead, until: 2026-03-09, under: 1.0.0}\n`,
    );
    expect(stdout).toContain(`${finding} accepted until the end of 2026-03-09`);
    expect(stdout).toMatch(/\n {4}OUT hold /u);
  });

  it('holds nothing from then on, and is held again once it is taken back', async () => {
    const folder = await job();
    const { stdout } = await waive(folder, 'lamp', ...said);
    expect(stdout).toContain('bulb on order');
    const check = () => folder.run(['check', 's4.yaml', '--format', 'ndjson', ...now]);
    const lamp = async () =>
      JSON.parse((await check()).stdout).findings.find(
        (one: { check: string }) => one.check === 'handover/lamp',
      );
    expect((await lamp()).waived).toMatchObject({ reason: 'bulb on order', by: 'workshop lead' });
    expect((await folder.run(['undo', 's4.yaml'])).stdout).toBe(
      's4.yaml: took back waiver of handover/lamp\n',
    );
    expect((await lamp()).waived).toBeNull();
    expect(await folder.read('s4.yaml')).toBe(emptyJob + read);
  });

  it('may end some days from today', async () => {
    const folder = await job();
    await waive(folder, 'lamp', '--reason', 'x', '--by', 'y', '--until', '7d');
    expect(await folder.read('s4.yaml')).toContain('until: 2026-03-09');
  });

  it('may be one that was not taken', async () => {
    const folder = await job();
    const { code } = await waive(folder, 'charging-window', ...said);
    expect(code).toBe(0);
  });
});

describe('a waiver that says too little', () => {
  it('is told all that is missing', async () => {
    const told = await refuse('lamp');
    expect(told).toContain('lamp: a waiver must say why add --reason');
    expect(told).toContain('lamp: a waiver must say who accepts it add --by');
    expect(told).toContain('lamp: a waiver must say until when add --until 2026-03-09, or 7d');
  });

  it.each([
    [['lamp', '--reason', '', '--by', 'y', '--until', '7d'], '--reason: nothing is written here'],
    [['lamp', '--reason', 'x', '--by', 'y', '--until', 'soon'], '--until soon: "soon" is not a day'],
    [['lamp', '--reason', 'x', '--by', 'y', '--until', '2026-03-01'], '2026-03-01 is over'],
    [['lmap', ...said], 'no finding is called "lmap"'],
    [['warning', ...said], 'did you mean handover/lamp:lamp?'],
    [['nothing-of-the-kind', ...said], 'what is out: handover/'],
    [['rails:XX', ...said], 'position-signals/rails does not judge "XX"'],
    [['rails', ...said], 'position-signals/rails is within its limits, so there is nothing to accept'],
  ] as const)('%j: %s', async (words, message) => {
    expect(await refuse(...words)).toContain(message);
  });

  it('is not written twice', async () => {
    const folder = await job();
    await waive(folder, 'lamp', ...said);
    const told = await refusal(folder, ['waive', 's4.yaml', 'lamp', ...said, ...now]);
    expect(told.replace(/\s+/gu, ' ')).toContain(
      'handover/lamp is accepted already, until 2026-03-09 by workshop lead',
    );
  });
});
