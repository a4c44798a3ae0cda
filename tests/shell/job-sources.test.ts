import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { realIo } from '../../src/shell/io.ts';
import { type JobSources, readSources } from '../../src/shell/job-sources.ts';

let folder = '';
const put = (name: string, text: string): Promise<void> => writeFile(join(folder, name), text);
const read = (...rules: string[]): Promise<JobSources> =>
  readSources(['jobs/s7.yaml'], rules, { ...realIo(), cwd: folder });
const printOf = async (...rules: string[]): Promise<string> => (await read(...rules)).print;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'sources-'));
  for (const name of ['jobs', 'rules/bench', 'shop-rules/bench'])
    await mkdir(join(folder, name), { recursive: true });
  await put('jobs/s7.yaml', 'one');
  await put('cornerwise.yaml', 'rules: [shop-rules]\n');
  await put('rules/bench/1.0.0.yaml', 'one');
  await put('shop-rules/bench/1.0.0.yaml', 'one');
});
afterEach(() => rm(folder, { recursive: true, force: true }));

describe('what a judgement hangs on', () => {
  it('is the same when the same is written again, or beside it', async () => {
    const before = await printOf('rules');
    await put('jobs/s7.yaml', 'one');
    await put('jobs/other.yaml', 'two');
    await put('rules/bench/notes.txt', 'two');
    expect(await printOf('rules')).toBe(before);
  });

  it.each([
    'jobs/s7.yaml',
    'cornerwise.yaml',
    'jobs/cornerwise.yaml',
    'rules/bench/1.0.0.yaml',
    'rules/bench/1.1.0.yaml',
    'shop-rules/bench/1.0.0.yaml',
  ])('differs when %s does', async (name) => {
    const before = await printOf('rules');
    await put(name, 'zone: Europe/Dublin\n');
    expect(await printOf('rules')).not.toBe(before);
  });

  it('differs when a file goes away, and is the same again when it is back', async () => {
    const before = await printOf();
    await rm(join(folder, 'jobs/s7.yaml'));
    expect(await printOf()).not.toBe(before);
    await put('jobs/s7.yaml', 'one');
    expect(await printOf()).toBe(before);
  });

  it('is read once: what is judged is what was compared', async () => {
    const sources = await read();
    await put('jobs/s7.yaml', 'two');
    expect(Buffer.from(await sources.io.readFile(join(folder, 'jobs/s7.yaml'))).toString()).toBe('one');
  });

  it('is watched by name where jobs lie, up to the shop file, and whole in rule folders', async () => {
    const { wanted } = await read('rules');
    const at = (name: string) => wanted.get(join(folder, name));
    expect(at('jobs')).toEqual(new Set(['s7.yaml', 'cornerwise.yaml']));
    expect(wanted.get(folder)).toEqual(new Set(['cornerwise.yaml']));
    expect([at('rules'), at('rules/bench'), at('shop-rules'), at('shop-rules/bench')]).toEqual(
      Array(4).fill('all'),
    );
  });
});
