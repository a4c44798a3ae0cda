import { describe, expect, it } from 'vitest';
import { type Folder, makeFolder, refusal } from '../support/folder.ts';

const band = (id: string, low = '1 V'): string =>
  `{id: ${id}, kind: range, title: Band, of: supply, in: [key-on], basis: {kind: from-memory}, tiers: [{weight: look, between: [${low}, 4 V]}]}`;

const pack = (id: string, version: string, checks: readonly string[], more = ''): string => `pack: ${id}
version: ${version}
title: A pack of a test
channels:
  - {id: supply, title: supply, quantity: voltage, unit: V, by: meter, depends: []}
checks:
${checks.map((check) => `  - ${check}`).join('\n')}
${more}`;

const renames = `renames:
  - {from: bench/wide, to: bench/wider}
  - {from: bench/wider, to: bench/widest}
  - {from: bench/moved, to: stand/moved}
`;

const rules = {
  'rules/bench/1.0.0.yaml': pack(
    'bench',
    '1.0.0',
    ['narrow', 'wide', 'moved', 'gone'].map((id) => band(id)),
  ),
  'rules/bench/1.1.0.yaml': pack(
    'bench',
    '1.1.0',
    ['narrow', 'wide', 'moved', 'gone'].map((id) => band(id)),
  ),
  'rules/bench/2.0.0.yaml': pack('bench', '2.0.0', [band('narrow'), band('widest')], renames),
  'rules/stand/2.1.0.yaml': pack('stand', '2.1.0', [band('moved')]),
};

const job = `# by hand   \r
worksheet: 1
job: S07-0001
title: Job of a test
opened: 2026-03-02T08:00
zone: Europe/Dublin
status: open
packs: [ "bench@1" ]   # one pack
vehicle:
  name: Shuttle 7
  layout: four-corner-air
  service-data:
    - {check: 'bench/wide' , at-most: 3 V, source: manual}   # the maker's
waivers:
  - {finding: bench/narrow:supply, reason: known, by: lead, until: 2026-03-09}
`;

const folderWith = (text: string, name = 's7.yaml'): Promise<Folder> =>
  makeFolder({ ...rules, [name]: text });

const upgrade = (folder: Folder, ...more: readonly string[]) =>
  folder.run(['packs', 'upgrade', 's7.yaml', '--rules', 'rules', ...more]);

describe('packs upgrade', () => {
  it('writes ranges and names of checks anew, keeps every other byte, and is taken back', async () => {
    const folder = await folderWith(job);
    const { code, stdout, stderr } = await upgrade(folder);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toBe(`s7.yaml: 2 changes written
  line 8: bench@1 becomes bench@2
  line 13: bench/wide becomes bench/widest
`);
    expect(await folder.read('s7.yaml')).toBe(
      job.replace('"bench@1"', '"bench@2"').replace("'bench/wide'", "'bench/widest'"),
    );
    const { stdout: again } = await upgrade(folder);
    expect(again).toBe('s7.yaml: names the newest packs already\n');
    const { stdout: undone } = await folder.run(['undo', 's7.yaml']);
    expect(undone).toBe('s7.yaml: took back packs upgrade\n');
    expect(await folder.read('s7.yaml')).toBe(job);
  });

  it('only tells what it would do with --dry-run', async () => {
    const folder = await folderWith(job);
    const { stdout } = await upgrade(folder, '--dry-run');
    expect(stdout).toContain('s7.yaml: 2 changes to make; nothing was written\n  line 8: bench@1 becomes');
    expect(await folder.read('s7.yaml')).toBe(job);
  });

  it.each([
    ['bench@1.0.0', 'bench@2.0.0'],
    ['bench@^1.1.0', 'bench@2'],
    ['bench@3', 'bench@2'],
  ])('takes %s to %s', async (was, is) => {
    const folder = await folderWith(job.replace('bench@1', was));
    expect((await upgrade(folder)).stdout).toContain(`line 8: ${was} becomes ${is}`);
  });

  it('leaves a range that the newest fits', async () => {
    const text = job.replace('bench@1', 'bench@>=1').replace('bench/wide', 'bench/narrow');
    expect((await upgrade(await folderWith(text))).stdout).toBe('s7.yaml: names the newest packs already\n');
  });

  it('adds the pack that a check has moved to, and says under which version a waiver accepted it', async () => {
    const text = job.replace('bench/narrow:supply,', 'bench/moved:supply, under: 1.1.0,');
    const folder = await folderWith(text);
    const { stdout } = await upgrade(folder);
    expect(stdout.replace(/\s+/gu, ' ')).toContain(
      'line 15: bench/moved:supply becomes stand/moved:supply; the waiver accepted it under 1.1.0',
    );
    expect(stdout).toContain('added stand@2');
    const after = await folder.read('s7.yaml');
    expect(after).toContain('packs: [ "bench@2", stand@2 ]   # one pack');
    expect(after).toContain('{finding: stand/moved:supply, under: 1.1.0,');
    const checked = await folder.run(['check', 's7.yaml', '--rules', 'rules']);
    expect(checked.stderr).toBe('');
  });

  it('tells at its place what nothing takes the place of, and writes nothing', async () => {
    const text = job.replace('bench/narrow:', 'bench/gone:').replace('bench/wide', 'bench/lost');
    const folder = await folderWith(text);
    const said = await refusal(folder, ['packs', 'upgrade', 's7.yaml', '--rules', 'rules']);
    expect(said).toContain('s7.yaml:13:');
    expect(said).toContain('the newest packs have no check "bench/lost", and none takes its place');
    expect(said).toContain('s7.yaml:15:');
    expect(said).toContain('Nothing was written.');
    expect(await folder.read('s7.yaml')).toBe(text);
  });

  it('does not leave a file that cannot be read', async () => {
    const bad = job.replace("'bench/wide' ,", "'bench/narrow' , of: supply,");
    const folder = await folderWith(bad);
    await folder.write(
      'rules/bench/2.0.0.yaml',
      pack('bench', '2.0.0', [band('narrow'), band('widest')])
        .replaceAll('of: supply', 'of: other')
        .replace('{id: supply,', '{id: other,'),
    );
    const said = await refusal(folder, ['packs', 'upgrade', 's7.yaml', '--rules', 'rules']);
    expect(said).toContain('does not judge "supply"');
    expect(await folder.read('s7.yaml')).toBe(bad);
  });

  it('brings a shop file over', async () => {
    const shop = 'zone: Europe/Dublin\nrules: [rules]\npacks:\n  - bench@1   # ours\n';
    const folder = await folderWith(shop, 'cornerwise.yaml');
    const { stdout, stderr } = await folder.run(['packs', 'upgrade', 'cornerwise.yaml']);
    expect({ stdout, stderr }).toEqual({
      stdout: 'cornerwise.yaml: 1 change written\n  line 4: bench@1 becomes bench@2\n',
      stderr: '',
    });
    expect(await folder.read('cornerwise.yaml')).toBe(shop.replace('bench@1', 'bench@2'));
  });

  it.each(['packs: [bnch@1]', 'packs: [[bench@1]]'])('refuses %s', async (packs) => {
    const folder = await folderWith(job.replace('packs: [ "bench@1" ]', packs));
    await refusal(folder, ['packs', 'upgrade', 's7.yaml', '--rules', 'rules']);
    expect(await folder.read('s7.yaml')).toContain(packs);
  });

  it('mends a file whose packs are of two majors', async () => {
    const folder = await folderWith(job.replace('[ "bench@1" ]', '[bench@1, stand@2]'));
    expect(await refusal(folder, ['check', 's7.yaml', '--rules', 'rules'])).toContain('conflicting-packs');
    expect((await upgrade(folder)).code).toBe(0);
    expect((await folder.run(['check', 's7.yaml', '--rules', 'rules'])).stderr).toBe('');
  });

  it('refuses standard input and a file that is not there', async () => {
    const folder = await folderWith(job);
    expect(await refusal(folder, ['packs', 'upgrade', '-'])).toContain('standard input');
    expect(await refusal(folder, ['packs', 'upgrade', 'none.yaml'])).toContain('there is no such file');
  });
});
