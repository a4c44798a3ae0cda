import { rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Folder, makeFolder } from '../../support/folder.ts';
import { changesIn, jobText, linesOf, pinned } from '../../support/sweep.ts';

const asOf = (time: string): string[] => ['--as-of', time];

/** What changed in a folder from one evening to another, after something was done to it in between. */
const changesAfter = async (
  folder: Folder,
  act: () => Promise<unknown>,
  { evening = '2026-03-02T18:00', more = [] as string[] } = {},
): Promise<Record<string, string[]>> => {
  const night = ['sweep', '.', '--format', 'ndjson', ...more];
  await folder.run([...night, ...asOf('2026-03-02T18:00'), '--out', 'ndjson=last.ndjson']);
  await act();
  return changesIn(await folder.run([...night, ...asOf(evening), '--since', 'last.ndjson']));
};

const nothing = async (): Promise<void> => {};

describe('what changed since an earlier sweep', () => {
  it('is nothing where nothing was done', async () => {
    const folder = await makeFolder({ 'a.yaml': pinned(), 'bad.yaml': 'worksheet: 2\n' });
    expect(await changesAfter(folder, nothing)).toEqual({
      'a.yaml': ['unchanged'],
      'bad.yaml': ['unchanged'],
    });
  });

  it('is nothing where lines moved, snapshots changed places and readings were taken again', async () => {
    const later = [
      '  - id: later',
      '    at: 2026-03-02T09:00',
      '    state: key-on',
      '    conditions: {floor: level, load: empty, air: 8 °C, levelling: disabled, maintainer: off}',
      '    readings: {supply: 12.4 V, battery: 12.65 V, reference: 5.00 V, position: {LF: 2.48 V, RF: 2.52 V, LR: 0.10 V, RR: 2.51 V}}',
      '    lamp: off',
      '    codes: []',
    ];
    const folder = await makeFolder({ 'a.yaml': pinned({ more: later }) });
    const moved = pinned()
      .replace(
        'snapshots:\n',
        `# a remark\n\nsnapshots:\n${later.join('\n').replace('id: later', 'id: again')}\n`,
      )
      .replace('worksheet: 1\n', 'worksheet: 1\n# moved down\n');
    expect(await changesAfter(folder, () => folder.write('a.yaml', moved))).toEqual({
      'a.yaml': ['unchanged'],
    });
  });

  it('tells findings that are new, that are gone, and that became another', async () => {
    const folder = await makeFolder({
      'a.yaml': pinned(),
      'b.yaml': jobText({ job: 'B' }),
      'c.yaml': jobText(),
    });
    const changes = await changesAfter(folder, async () => {
      await folder.write('a.yaml', jobText());
      await folder.write('b.yaml', pinned({ job: 'B' }));
    });
    expect(changes['a.yaml']?.[0]).toBe('changed');
    expect(changes['a.yaml']).toContain('gone: Signal clear of both rails (LR key-on)');
    expect(changes['b.yaml']).toContain('new Signal clear of both rails (LR key-on): out hold');
    expect(changes['c.yaml']).toEqual(['unchanged']);
  });

  it('tells jobs that are new, gone, closed and opened again, and files that broke and were mended', async () => {
    const folder = await makeFolder({
      'gone.yaml': jobText({ job: 'G' }),
      'closed.yaml': jobText({ job: 'C' }),
      'breaks.yaml': jobText({ job: 'K' }),
      'mended.yaml': 'worksheet: 2\n',
    });
    const changes = await changesAfter(folder, async () => {
      await rm(join(folder.path, 'gone.yaml'));
      await folder.write('closed.yaml', jobText({ job: 'C', status: 'closed' }));
      await folder.write('breaks.yaml', 'worksheet: 1\njob: [\n');
      await folder.write('mended.yaml', jobText({ job: 'M' }));
      await folder.write('new.yaml', jobText({ job: 'N' }));
    });
    expect(changes).toEqual({
      'gone.yaml': ['gone', 'the file is no longer there'],
      'closed.yaml': ['gone', 'closed'],
      'breaks.yaml': ['changed', 'could be judged before'],
      'mended.yaml': ['changed', 'can be judged again'],
      'new.yaml': ['new'],
    });
  });

  it('knows a job whose file was renamed, and takes no copy for it', async () => {
    const folder = await makeFolder({ 'a.yaml': jobText({ job: 'A' }), 'b.yaml': jobText({ job: 'B' }) });
    const changes = await changesAfter(folder, async () => {
      await rename(join(folder.path, 'a.yaml'), join(folder.path, 'z.yaml'));
      await folder.write('copy-of-b.yaml', jobText({ job: 'B' }));
    });
    expect(changes).toEqual({ 'z.yaml': ['unchanged'], 'b.yaml': ['unchanged'], 'copy-of-b.yaml': ['new'] });
  });

  it('tells a waiver that is about to end, and one that has ended, though no file changed', async () => {
    const waived = pinned({
      more: [
        'waivers:',
        '  - {finding: position-signals/rails, reason: sensor on order, by: workshop lead, until: 2026-03-11}',
      ],
    });
    const folder = await makeFolder({ 'a.yaml': waived });
    expect(await changesAfter(folder, nothing, { evening: '2026-03-04T18:00' })).toEqual({
      'a.yaml': ['unchanged'],
    });
    // The 11th counts to its end, so that seven days before it is the 5th.
    expect(await changesAfter(folder, nothing, { evening: '2026-03-05T00:00' })).toEqual({
      'a.yaml': ['changed', 'the waiver of position-signals/rails is about to end'],
    });
    expect(await changesAfter(folder, nothing, { evening: '2026-03-11T23:59' })).toEqual({
      'a.yaml': ['changed', 'the waiver of position-signals/rails is about to end'],
    });
    expect(await changesAfter(folder, nothing, { evening: '2026-03-12T00:00' })).toEqual({
      'a.yaml': [
        'changed',
        'Signal clear of both rails (LR key-on): no longer waived',
        'the waiver of position-signals/rails has ended',
      ],
    });
  });

  it('tells a step that became ready and one that is settled', async () => {
    const folder = await makeFolder({ 'a.yaml': jobText({ more: ['log: []'] }) });
    const changes = await changesAfter(folder, () =>
      folder.run(['log', 'a.yaml', 'completed', 'verify-complaint', '--at', '2026-03-02T08:10']),
    );
    expect(changes['a.yaml']).toContain('settled: Verify the complaint, history, modifications and tyres');
  });

  it('tells access that is about to end and that has ended, while a step needs it', async () => {
    const learn = (more: readonly string[]): string =>
      jobText({
        more: [
          'log:',
          '  - {at: 2026-03-02T09:00, did: replaced, what: sensor.LR}',
          ...more,
          'costs:',
          '  currency: EUR',
          '  lines:',
          '    - {kind: access, what: height-learn, amount: 74, from: 2026-03-02T10:00, lasts: P9D}',
        ],
      });
    const done = ['  - {at: 2026-03-02T11:00, did: calibrated, what: ride-height, result: passed}'];
    const folder = await makeFolder({ 'needs.yaml': learn([]), 'done.yaml': learn(done) });
    const soon = await changesAfter(folder, nothing, { evening: '2026-03-05T10:00' });
    expect(soon['needs.yaml']).toEqual(['changed', 'access for height-learn is about to end']);
    expect(soon['done.yaml']).toEqual(['unchanged']);
    const over = await changesAfter(folder, nothing, { evening: '2026-03-12T10:00' });
    expect(over['needs.yaml']).toContain('access for height-learn has ended');
  });

  it('does not say that a file is gone which this sweep only did not ask for', async () => {
    const folder = await makeFolder({
      'a.yaml': jobText({ job: 'A' }),
      'march/b.yaml': jobText({ job: 'B' }),
    });
    await folder.run(['sweep', '.', '--out', 'ndjson=last.ndjson']);
    const part = await folder.run(['sweep', 'march', '--since', 'last.ndjson', '--format', 'ndjson']);
    expect(changesIn(part)).toEqual({
      'march/b.yaml': ['unchanged'],
      'a.yaml': ['gone', 'its file is not among those of this sweep'],
    });
  });

  it('begins with everything new, and says so, where the earlier file is not there yet', async () => {
    const folder = await makeFolder({ 'a.yaml': jobText() });
    const first = await folder.run(['sweep', '.', '--since', 'last.ndjson', '--format', 'ndjson']);
    expect(changesIn(first)).toEqual({ 'a.yaml': ['new'] });
    expect(first.stderr).toBe('cornerwise: last.ndjson is not there yet, so every job counts as new\n');
    expect(first.code).toBe(0);
  });

  it('may read and write one file, night after night', async () => {
    const folder = await makeFolder({ 'a.yaml': jobText() });
    const night = ['sweep', '.', '--since', 'n.ndjson', '--out', 'ndjson=n.ndjson', '--format', 'ndjson'];
    await folder.run(night);
    expect(changesIn(await folder.run(night))).toEqual({ 'a.yaml': ['unchanged'] });
    await rm(join(folder.path, 'a.yaml'));
    await folder.write('b.yaml', jobText({ job: 'B' }));
    expect(changesIn(await folder.run(night))).toEqual({
      'a.yaml': ['gone', 'the file is no longer there'],
      'b.yaml': ['new'],
    });
    // What had gone is not told again.
    expect(changesIn(await folder.run(night))).toEqual({ 'b.yaml': ['unchanged'] });
  });

  it('is remembered beside the jobs, whole even where only a part is printed', async () => {
    const folder = await makeFolder({ 'jobs/a.yaml': jobText(), 'jobs/b.yaml': pinned({ job: 'B' }) });
    const night = ['sweep', 'jobs', '--remember', '--format', 'csv', '--only-changed'];
    await folder.run([...night, '--older-than', '400']);
    expect(linesOf({ stdout: await folder.read('jobs/.cornerwise-sweep.ndjson') })).toHaveLength(3);
    await folder.write('jobs/b.yaml', jobText({ job: 'B' }));
    const { stdout } = await folder.run(night);
    expect(stdout).toContain('jobs/b.yaml');
    expect(stdout).not.toContain('jobs/a.yaml');
  });

  it('writes no colours into files, whatever the terminal shows', async () => {
    const folder = await makeFolder({ 'a.yaml': pinned() });
    const { stdout } = await folder.run(['sweep', '.', '--color', '--out', 'table=t.txt']);
    expect(stdout).toContain('\u001b[');
    expect(await folder.read('t.txt')).not.toContain('\u001b[');
  });

  it('thins what is printed with --only-changed, and not what scripts read', async () => {
    const folder = await makeFolder({ 'a.yaml': jobText(), 'b.yaml': pinned({ job: 'B' }) });
    const changes = await changesAfter(folder, () => folder.write('b.yaml', jobText({ job: 'B' })), {
      more: [],
    });
    expect(Object.keys(changes)).toEqual(['a.yaml', 'b.yaml']);
    const only = ['sweep', '.', '--since', 'last.ndjson', '--only-changed', ...asOf('2026-03-02T18:00')];
    const printed = await folder.run([...only, '--format', 'csv', '--out', 'html=board.html']);
    expect(printed.stdout).not.toContain('a.yaml');
    expect(await folder.read('board.html')).toContain('a.yaml');
    expect(linesOf(await folder.run([...only, '--format', 'ndjson']))).toHaveLength(2);
  });

  it.each([
    [['--only-changed'], '--only-changed needs --since FILE or --remember'],
    [['--since', 'x', '--remember'], 'cannot be used with'],
    [['--since', 'broken.ndjson'], 'broken.ndjson:2: this line is not one that'],
    [['--since', 'later.ndjson'], 'later.ndjson:2: this line is not one that'],
    [['--since', '.'], 'a folder, not a plain file'],
  ])('refuses %j', async (argv, message) => {
    const folder = await makeFolder({
      'a.yaml': jobText(),
      'broken.ndjson': '{"file":"a","job":null,"problems":[]}\n{"file":"b","job":"B"}\n',
      'later.ndjson': ['1', '2']
        .map((format) => `{"format":${format},"file":"${format}","job":null,"problems":[]}\n`)
        .join(''),
    });
    const { code, stderr } = await folder.run(['sweep', '.', ...argv]);
    expect(stderr).toContain(message);
    expect(code).toBe(2);
  });
});
