import { readdir, readFile, symlink, utimes, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cacheFolder, openCache } from '../../../src/shell/sweep/cache.ts';
import { contentHash, sealLength } from '../../../src/shell/sweep/hash.ts';
import { type Folder, makeFolder } from '../../support/folder.ts';
import { projectRoot, runCli } from '../../support/run.ts';
import { jobText, pinned } from '../../support/sweep.ts';

const cacheOf = ({ path }: Folder): string => join(dirname(path), 'cache/cornerwise/sweep');

const sweep = ['sweep', '.', '--format', 'ndjson'];
const evening = ['--as-of', '2026-03-02T18:00'];

const ownPack = (limit: string, version = '1.0.0'): string => `pack: own
version: ${version}
title: A pack of the shop's own
changes: first issue
components:
  - {id: lead, title: lead}
channels:
  - {id: lead-drop, title: drop of the lead, quantity: voltage, unit: V, by: meter, depends: [lead]}
checks:
  - id: lead
    kind: range
    title: Drop of the lead
    of: lead-drop
    in: [key-on]
    tiers: [{weight: hold, between: [0 V, ${limit}]}]
    basis: {kind: from-memory}
    says: {high: drops too much}
proofs:
  - given: {state: key-on, readings: {lead-drop: 9 V}}
    expect: {lead: {lead-drop: out}}
`;

const withLead = jobText({
  more: ['packs: [position-signals@1, supply-charging@1, handover@1, own@1]'],
}).replace('reference: 5.00 V', 'reference: 5.00 V, lead-drop: 0.5 V');

describe('what an earlier sweep made of the same', () => {
  it('is what a sweep without it makes', async () => {
    const folder = await makeFolder({ 'a.yaml': pinned(), 'b.yaml': jobText({ job: 'B' }) });
    const first = await folder.run([...sweep, ...evening]);
    const again = await folder.run([...sweep, ...evening]);
    const without = await folder.run([...sweep, ...evening, '--no-cache']);
    expect(again).toEqual(first);
    expect(without).toEqual(first);
  });

  it('is kept by --no-cache from being read and from being written', async () => {
    const folder = await makeFolder({ 'a.yaml': pinned() });
    await folder.run([...sweep, '--no-cache']);
    await expect(readdir(cacheOf(folder))).rejects.toThrow('ENOENT');
  });

  it('really is used: a part that was tampered with shows', async () => {
    const folder = await makeFolder({ 'a.yaml': pinned() });
    await folder.run([...sweep, ...evening]);
    const [part = ''] = await readdir(cacheOf(folder));
    const path = join(cacheOf(folder), part);
    const body = (await readFile(path, 'utf8')).slice(sealLength + 1).replace('Shuttle 4', 'Shuttle 5');
    await writeFile(path, `${contentHash(body)}\n${body}`);
    expect((await folder.run([...sweep, ...evening])).stdout).toContain('Shuttle 5');
    expect((await folder.run([...sweep, ...evening, '--no-cache'])).stdout).not.toContain('Shuttle 5');
  });

  it.each([
    [
      'the job',
      (f: Folder) => f.write('jobs/a.yaml', withLead.replace('lead-drop: 0.5 V', 'lead-drop: 3 V')),
    ],
    [
      'the shop file',
      (f: Folder) => f.write('jobs/cornerwise.yaml', 'zone: Asia/Tokyo\nrules: [../rules]\nfail-on: look\n'),
    ],
    ['a pack of the shop', (f: Folder) => f.write('rules/own/1.0.0.yaml', ownPack('0.1 V'))],
    ['a newer version of a pack', (f: Folder) => f.write('rules/own/1.0.1.yaml', ownPack('0.1 V', '1.0.1'))],
    ['a shop file nearer by', (f: Folder) => f.write('jobs/cornerwise.yaml', 'zone: Asia/Tokyo\n')],
  ])('is not used once %s changed', async (_, act) => {
    const folder = await makeFolder({
      'jobs/a.yaml': withLead,
      'rules/own/1.0.0.yaml': ownPack('1 V'),
      'cornerwise.yaml': 'zone: Europe/Dublin\nrules: [rules]\n',
    });
    const night = ['sweep', 'jobs', '--format', 'ndjson', ...evening];
    const before = await folder.run(night);
    expect(before.stdout).toContain('"job":"S04-1"');
    await act(folder);
    const changed = await folder.run(night);
    expect(changed.stdout).not.toBe(before.stdout);
    expect(changed).toEqual(await folder.run([...night, '--no-cache']));
  });

  it('is not used once another folder of rules comes first or another level is asked for', async () => {
    const folder = await makeFolder({
      'jobs/a.yaml': withLead,
      'rules/own/1.0.0.yaml': ownPack('1 V'),
      'strict/own/1.0.0.yaml': ownPack('0.1 V'),
      'cornerwise.yaml': 'zone: Europe/Dublin\nrules: [rules]\n',
    });
    const night = ['sweep', 'jobs', '--format', 'ndjson', ...evening];
    const mild = await folder.run(night);
    const strict = await folder.run([...night, '--rules', 'strict']);
    expect([mild.code, strict.code]).toEqual([0, 1]);
    expect((await folder.run([...night, '--rules', 'strict', '--fail-on', 'never'])).code).toBe(0);
    expect(await folder.run(night)).toEqual(mild);
  });

  it('is not used once a pack changed beside one that cannot be read', async () => {
    const folder = await makeFolder({
      'jobs/a.yaml': withLead,
      'rules/own/1.0.0.yaml': ownPack('1 V'),
      'cornerwise.yaml': 'zone: Europe/Dublin\nrules: [rules]\n',
    });
    await symlink('nowhere', join(folder.path, 'rules/own/2.0.0.yaml'));
    const night = ['sweep', 'jobs', '--format', 'ndjson', ...evening];
    expect((await folder.run(night)).code).toBe(0);
    await folder.write('rules/own/1.0.0.yaml', ownPack('0.1 V'));
    expect((await folder.run(night)).code).toBe(1);
  });

  it('is not fooled by a file that changed within the same second and kept its size', async () => {
    const folder = await makeFolder({ 'a.yaml': jobText() });
    const when = new Date('2026-03-02T10:00:00Z');
    await utimes(join(folder.path, 'a.yaml'), when, when);
    const before = await folder.run([...sweep, ...evening]);
    await folder.write('a.yaml', jobText().replace('LR: 2.45 V', 'LR: 0.10 V'));
    await utimes(join(folder.path, 'a.yaml'), when, when);
    const now = await folder.run([...sweep, ...evening]);
    expect([before.code, now.code]).toEqual([0, 1]);
  });

  it('holds whatever the clock says, forth and back', async () => {
    const more = [
      'waivers: [{finding: position-signals/rails, reason: on order, by: workshop lead, until: 2026-03-04}]',
      'log:',
      '  - {at: 2026-03-03T09:00, did: replaced, what: sensor.LR}',
      'costs:',
      '  currency: EUR',
      '  authorised: [{at: 2026-03-03T10:00, amount: 420, by: fleet desk, how: phone}]',
      '  lines: [{kind: access, what: height-learn, amount: 74, from: 2026-03-02T10:00, lasts: P2D}]',
    ];
    const folder = await makeFolder({
      'cornerwise.yaml': `packs: [position-signals@1, supply-charging@1, air-supply@1, module-replacement@1, handover@1]
zone: Europe/Dublin
equipment: [{name: own software, does: [height-learn], access: {amount: 74, per: period, lasts: P7D}}]
`,
      'a.yaml': pinned({ more }),
    });
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 0, max: 6 * 24 * 60 }), async (minutes) => {
        const now = Date.UTC(2026, 2, 1) + minutes * 60_000;
        const kept = await folder.run(sweep, { now });
        expect(kept).toEqual(await folder.run([...sweep, '--no-cache'], { now }));
      }),
      {
        numRuns: 40,
        // Just before, at and after the minutes at which something turns.
        examples: [
          ...[2, 3, 4].flatMap((day) => [9 * 60, 10 * 60, 0].map((minute) => day * 1440 - 1440 + minute)),
          ...Array.from({ length: 40 }, (_, step) => 3 * 1440 + 10 * 60 - step),
          3 * 1440 + 10 * 60 + 1,
          4 * 1440,
          4 * 1440 - 1,
        ].map((minute): [number] => [minute]),
      },
    );
  });

  it('holds for every example at any time', async () => {
    const folder = await makeFolder();
    const env = { XDG_CACHE_HOME: join(dirname(folder.path), 'cache') };
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 0, max: 60 }),
        fc.integer({ min: 0, max: 23 }),
        async (days, hour) => {
          const now = Date.UTC(2026, 1, 20 + days, hour, 7);
          const run = (...argv: string[]) =>
            runCli(['sweep', 'examples', '--format', 'ndjson', ...argv], { cwd: projectRoot, env, now });
          expect(await run()).toEqual(await run('--no-cache'));
        },
      ),
      { numRuns: 8 },
    );
  });

  it('survives two sweeps at once', async () => {
    const files = Object.fromEntries(
      Array.from({ length: 40 }, (_, index) => [`j${index}.yaml`, pinned({ job: `J${index}` })]),
    );
    const folder = await makeFolder(files);
    const alone = await folder.run([...sweep, ...evening, '--no-cache']);
    const both = await Promise.all(Array.from({ length: 4 }, () => folder.run([...sweep, ...evening])));
    for (const one of both) expect(one).toEqual(alone);
    expect(await folder.run([...sweep, ...evening])).toEqual(alone);
    // Nothing half-written stays behind.
    expect((await readdir(cacheOf(folder))).filter((name) => !/^[0-9a-f]{2}\.txt$/u.test(name))).toEqual([]);
  });

  it('is judged anew where a part was cut short, and where it cannot be written at all', async () => {
    const folder = await makeFolder({ 'a.yaml': pinned() });
    const whole = await folder.run([...sweep, ...evening]);
    const [part = ''] = await readdir(cacheOf(folder));
    const path = join(cacheOf(folder), part);
    const kept = await readFile(path, 'utf8');
    const tampered = kept.replace('Shuttle 4', 'Shuttle 5');
    for (const text of ['', 'rubbish\n', kept.slice(0, -3), tampered, `${kept}${kept}`]) {
      await writeFile(path, text);
      expect(await folder.run([...sweep, ...evening])).toEqual(whole);
    }
    const blocked = join(folder.path, 'no-folder');
    await writeFile(blocked, '');
    expect(await folder.run([...sweep, ...evening], { env: { XDG_CACHE_HOME: blocked } })).toEqual(whole);
  });
});

describe('a part of the cache', () => {
  const entry = { from: 100, until: 200, json: '{"a b":1}', status: 'open', zone: 'Europe/Dublin' } as const;
  const day = 86_400_000;

  it('gives an entry within its times only, from the first to before the last', async () => {
    const folder = join((await makeFolder()).path, 'cache');
    const part = openCache(folder, 0).open(7);
    part.put('content', 'around', entry);
    part.save();
    const again = openCache(folder, 0).open(7);
    const at = (time: number) => again.find('content', 'around', () => time);
    expect([99, 100, 199, 200].map((time) => at(time)?.json ?? null)).toEqual([
      null,
      entry.json,
      entry.json,
      null,
    ]);
    expect(again.find('content', 'other', () => 150)).toBeNull();
    expect(again.find('other', 'around', () => 150)).toBeNull();
  });

  it('leaves out what no sweep met for thirty days, and keeps what one did', async () => {
    const folder = join((await makeFolder()).path, 'cache');
    const open = (days: number) => openCache(folder, days * day).open(0);
    const always = { ...entry, from: Number.NEGATIVE_INFINITY, until: Number.POSITIVE_INFINITY };
    const begin = open(0);
    begin.put('met', 'around', always);
    begin.put('unmet', 'around', always);
    begin.save();
    const between = open(20);
    expect(between.find('met', 'around', () => 0)).not.toBeNull();
    between.save();
    const late = open(40);
    expect(late.find('met', 'around', () => 0)).not.toBeNull();
    expect(late.find('unmet', 'around', () => 0)).toBeNull();
  });

  it('lies in the folder that the surroundings name', () => {
    const at = (env: Record<string, string>) => cacheFolder({ env } as never);
    expect(at({ XDG_CACHE_HOME: '/c', HOME: '/h' })).toBe('/c/cornerwise/sweep');
    expect(at({ HOME: '/h' })).toBe('/h/.cache/cornerwise/sweep');
    expect(at({})).toBeNull();
  });
});
