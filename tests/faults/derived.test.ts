import { cpSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeFolder } from '../support/folder.ts';
import { projectRoot } from '../support/run.ts';
import { jobText, pinned } from '../support/sweep.ts';
import { shell } from './built-program.ts';

/**
 * What the program made itself, damaged behind its back: it is made anew, and nothing that is printed differs. Places and
 * kinds of damage follow from a number, so that a failure can be looked at again.
 */
const damages = ['a bit', 'a digit', '64 bytes', 'cut', 'doubled', 'empty', 'rubbish'] as const;

const steps = (seed: number): (() => number) => {
  let state = seed * 2_654_435_761 + 1;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
};

const damaged = (bytes: Buffer, kind: (typeof damages)[number], seed: number): Buffer => {
  const next = steps(seed);
  const at = Math.floor(next() * bytes.length);
  const copy = Buffer.from(bytes);
  switch (kind) {
    case 'a bit':
      copy[at] = (copy[at] ?? 0) ^ (1 << Math.floor(next() * 8));
      return copy;
    case 'a digit': {
      // The one damage that leaves sound JSON behind.
      const digits = [...copy.keys()].filter((index) => /\d/u.test(String.fromCharCode(copy[index] ?? 0)));
      const digit = digits[Math.floor(next() * digits.length)] ?? 0;
      copy[digit] = 0x30 + (((copy[digit] ?? 0x30) - 0x30 + 1) % 10);
      return copy;
    }
    case '64 bytes':
      for (let index = at; index < Math.min(at + 64, copy.length); index += 1)
        copy[index] = (copy[index] ?? 0) ^ 0xff;
      return copy;
    case 'cut':
      return copy.subarray(0, at);
    case 'doubled':
      return Buffer.concat([copy, copy]);
    case 'empty':
      return Buffer.alloc(0);
    case 'rubbish':
      return Buffer.from('rubbish\n');
  }
};

const rounds = Array.from(
  { length: 42 },
  (_, seed) => [damages[seed % damages.length] ?? 'a bit', seed] as const,
);

const asOf = ['--as-of', '2026-03-02T18:00'];
const night = ['sweep', '.', '--format', 'ndjson', ...asOf];

describe('kept rows of a sweep', () => {
  it('are judged anew where a part was damaged', async () => {
    const folder = await makeFolder({ 'a.yaml': pinned(), 'b.yaml': jobText({ job: 'B' }) });
    const whole = await folder.run(night);
    const cache = join(folder.path, '../cache/cornerwise/sweep');
    const parts = readdirSync(cache).map((name) => join(cache, name));
    expect(parts.length).toBeGreaterThan(0);
    const kept = parts.map((part) => readFileSync(part));
    for (const [kind, seed] of rounds) {
      for (const [index, part] of parts.entries())
        writeFileSync(part, damaged(kept[index] ?? Buffer.alloc(0), kind, seed));
      expect([kind, seed, await folder.run(night)]).toEqual([kind, seed, whole]);
    }
  });
});

describe('a remembered night', () => {
  it('is moved aside where it was damaged, which is said, and the sweep is made', async () => {
    const folder = await makeFolder({ 'a.yaml': pinned(), 'b.yaml': jobText({ job: 'B' }) });
    const remembering = [...night, '--remember'];
    await folder.run(remembering);
    const path = join(folder.path, '.cornerwise-sweep.ndjson');
    const sound = readFileSync(path);
    const second = await folder.run(remembering);
    expect(second.stdout).toContain('"change":{"kind":"unchanged","says":[]}');
    for (const [kind, seed] of rounds) {
      writeFileSync(path, damaged(sound, kind, seed));
      const { code, stdout, stderr } = await folder.run(remembering);
      expect([kind, seed, code]).toEqual([kind, seed, second.code]);
      expect(stderr).toContain('it was moved aside to .cornerwise-sweep.damaged.ndjson');
      expect(stdout).toContain('"change":{"kind":"new","says":[]}');
      expect(readFileSync(path)).toEqual(sound);
    }
    expect(await folder.run(remembering)).toEqual(second);
  });
});

describe('a record of changes', () => {
  it('takes back what it holds or nothing, whatever was done to it', async () => {
    const folder = await makeFolder({ 'a.yaml': pinned() });
    const before = await folder.read('a.yaml');
    await folder.run(['log', 'a.yaml', 'noted', 'vehicle', ...asOf]);
    const after = await folder.read('a.yaml');
    const store = join(folder.path, '../state/cornerwise/undo');
    const [name = ''] = readdirSync(store);
    const record = readFileSync(join(store, name));
    for (const [kind, seed] of rounds) {
      writeFileSync(join(store, name), damaged(record, kind, seed));
      await folder.write('a.yaml', after);
      const { code } = await folder.run(['undo', 'a.yaml']);
      expect([kind, seed, code === 0 ? before : after]).toEqual([kind, seed, await folder.read('a.yaml')]);
      expect([0, 2]).toContain(code);
    }
  });
});

describe('packs that the build read ahead', () => {
  let copy = '';
  beforeAll(async () => {
    copy = await mkdtemp(join(tmpdir(), 'cornerwise-faults-'));
    for (const folder of ['bin', 'dist', 'rules'])
      cpSync(join(projectRoot, folder), join(copy, folder), { recursive: true });
    cpSync(join(projectRoot, 'package.json'), join(copy, 'package.json'));
    symlinkSync(join(projectRoot, 'node_modules'), join(copy, 'node_modules'));
    mkdirSync(join(copy, 'jobs'));
    writeFileSync(join(copy, 'jobs/a.yaml'), pinned());
  });
  afterAll(() => rm(copy, { recursive: true, force: true }));

  it('are read anew where one was damaged', async () => {
    const line = `node bin/cornerwise.js check jobs/a.yaml ${asOf.join(' ')} --format json`;
    const whole = await shell(line, copy);
    expect(whole.code).toBe(1);
    const parts = readdirSync(join(copy, 'dist/packs')).map((name) => join(copy, 'dist/packs', name));
    const kept = parts.map((part) => readFileSync(part));
    for (const [kind, seed] of rounds.slice(0, damages.length)) {
      for (const [index, part] of parts.entries())
        writeFileSync(part, damaged(kept[index] ?? Buffer.alloc(0), kind, seed));
      expect([kind, await shell(line, copy)]).toEqual([kind, whole]);
    }
    const told = await shell(`NODE_DEBUG=cornerwise ${line}`, copy);
    expect(told.stderr).toMatch(/CORNERWISE \d+: .*\.json does not match its hash and is made anew/u);
    expect(told.stdout).toBe(whole.stdout);
  });
});

describe('a command that was killed between file and record', () => {
  const log = (what: string): string[] => ['log', 'a.yaml', 'noted', 'vehicle', '--note', what, ...asOf];

  it('leaves a record that leads back all the same', async () => {
    const folder = await makeFolder({ 'a.yaml': pinned() });
    const texts = [await folder.read('a.yaml')];
    for (const what of ['one', 'two']) {
      await folder.run(log(what));
      texts.push(await folder.read('a.yaml'));
    }
    const [none = '', one = '', two = ''] = texts;
    // An undo that was killed: the file went back, the record did not.
    await folder.write('a.yaml', one);
    expect((await folder.run(['undo', 'a.yaml'])).code).toBe(0);
    expect(await folder.read('a.yaml')).toBe(none);
    // A change that was killed: it went on record, and the file stayed.
    await folder.run(log('one'));
    await folder.run(log('two'));
    expect(await folder.read('a.yaml')).toBe(two);
    await folder.write('a.yaml', one);
    await folder.run(log('three'));
    expect(await folder.read('a.yaml')).toBe(two.replace('two', 'three'));
    for (const text of [one, none]) {
      expect((await folder.run(['undo', 'a.yaml'])).code).toBe(0);
      expect(await folder.read('a.yaml')).toBe(text);
    }
  });
});
