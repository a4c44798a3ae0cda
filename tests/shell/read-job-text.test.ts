import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { realIo } from '../../src/shell/io.ts';
import { type Library, openLibrary } from '../../src/shell/library.ts';
import { type ReadText, readJobText } from '../../src/shell/read-job-text.ts';
import { shopFor } from '../../src/shell/shop-file.ts';

let folder = '';
const put = async (name: string, text: string): Promise<void> => {
  await mkdir(dirname(join(folder, name)), { recursive: true });
  await writeFile(join(folder, name), text);
};

/** A pack with a channel in a unit of its own, so that a reading tells which pack it was read against. */
const pack = (id: string, version: string, unit: string, more = ''): string => `pack: ${id}
version: ${version}
title: ${id}
channels:
  - {id: tank, title: Tank, quantity: pressure, unit: ${unit}, by: gauge, depends: []}
checks:
  - {id: low-${id}, kind: range, title: T, of: tank, in: [key-on], tiers: [{weight: look, at-least: 60 psi}], basis: {kind: from-memory}}
${more}`;

const job = (packs: string, before = ''): string => `${before}worksheet: 1
job: S07-0412
title: Left rear sits low
opened: 2026-03-02T08:15
zone: UTC
status: open
${packs}vehicle: {name: Shuttle 7, layout: four-corner-air}
snapshots:
  - {id: as-found, at: 2026-03-02T08:40, state: key-on, readings: {tank: 100 psi}}
`;

const against = async (text: string, library: Library, jobs = 'jobs'): Promise<ReadText> =>
  readJobText(text, await shopFor(join(folder, jobs), realIo()), library);

/** What a text came to: its packs and the tank's value, or its problems with their lines. */
const told = ({ job: read, prepared: { packs }, problems }: ReadText): string => {
  const wrong = problems.map(({ code, line, file }) => `${code} ${line}${file ? ' elsewhere' : ''}`);
  if (wrong.length > 0) return wrong.join(', ');
  const tank = read?.snapshots[0]?.readings.get('tank');
  const value = tank?.kind === 'values' ? tank.values[0]?.value.toFixed(2) : tank?.kind;
  return `${packs.map(({ id, version }) => `${id} ${version}`).join(', ')}: ${value}`;
};
const library = (...folders: string[]): Library => openLibrary(folders.map((name) => join(folder, name)));

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'reading-'));
  await mkdir(join(folder, 'jobs'));
  await put('one/frame/1.0.0.yaml', pack('frame', '1.0.0', 'psi'));
  await put('one/frame/2.0.0.yaml', pack('frame', '2.0.0', 'bar'));
  await put('one/bench/1.0.0.yaml', pack('bench', '1.0.0', 'bar'));
  await put('two/frame/1.0.0.yaml', pack('frame', '1.0.0', 'kPa'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

describe('what is kept from one job to the next mixes nothing up', () => {
  it('between lists of packs', async () => {
    const one = library('one');
    for (let again = 0; again < 2; again += 1) {
      expect(told(await against(job('packs: [frame@1]\n'), one))).toBe('frame 1.0.0: 100.00');
      expect(told(await against(job('packs: [frame@2]\n'), one))).toBe('frame 2.0.0: 6.89');
      expect(told(await against(job('packs: [bench@1]\n'), one))).toBe('bench 1.0.0: 6.89');
      expect(told(await against(job('packs: [bench@1, frame@2]\n'), one))).toBe(
        'bench 1.0.0, frame 2.0.0: 6.89',
      );
      expect(told(await against(job('packs: [frame@2, bench@1]\n'), one))).toBe(
        'frame 2.0.0, bench 1.0.0: 6.89',
      );
    }
  });

  it('between libraries, in either order of their folders', async () => {
    const text = job('packs: [frame@1]\n');
    const [first, second, both] = [library('one'), library('two'), library('two', 'one')];
    for (let again = 0; again < 2; again += 1) {
      expect(told(await against(text, first))).toBe('frame 1.0.0: 100.00');
      expect(told(await against(text, second))).toBe('frame 1.0.0: 689.48');
      expect(told(await against(text, both))).toBe('frame 1.0.0: 689.48');
    }
  });

  it('between shop files, whose packs a job without any takes', async () => {
    await put('north/cornerwise.yaml', 'packs: [frame@1]\ncurrency: EUR\n');
    await put('south/cornerwise.yaml', 'packs: [frame@2]\ncurrency: USD\n');
    await put('none/cornerwise.yaml', '# before\npacks: [nothing@1]\n');
    const one = library('one');
    for (let again = 0; again < 2; again += 1) {
      const north = await against(job(''), one, 'north');
      const south = await against(job(''), one, 'south');
      expect([told(north), north.job?.costs.currency]).toEqual(['frame 1.0.0: 100.00', 'EUR']);
      expect([told(south), south.job?.costs.currency]).toEqual(['frame 2.0.0: 6.89', 'USD']);
      expect(told(await against(job(''), one, 'none'))).toBe('unknown-pack 2 elsewhere');
      expect(told(await against(job('packs: [frame@1]\n'), one, 'south'))).toBe('frame 1.0.0: 100.00');
    }
  });

  it('a library opened later sees what its folders hold then', async () => {
    const text = job('packs: [frame@2]\n');
    expect(told(await against(text, library('one')))).toBe('frame 2.0.0: 6.89');
    await put('one/frame/2.0.0.yaml', pack('frame', '2.0.0', 'kPa'));
    expect(told(await against(text, library('one')))).toBe('frame 2.0.0: 689.48');
    await put('one/frame/2.1.0.yaml', pack('frame', '2.1.0', 'psi'));
    expect(told(await against(text, library('one')))).toBe('frame 2.1.0: 100.00');
  });
});

describe('what is wrong with packs is told in each job at its own place', () => {
  it('where two do not go together', async () => {
    const one = library('one');
    const packs = 'packs:\n  - frame@1\n  - bench@1\n';
    for (const [before, line] of [
      ['', 9],
      [`# ${'-'.repeat(60)}\n# b\n`, 11],
      ['', 9],
    ] as const) {
      expect(told(await against(job(packs, before), one))).toBe(`conflicting-packs ${line}`);
    }
    expect(told(await against(job('packs: [frame@1]\n'), one))).toBe('frame 1.0.0: 100.00');
  });

  it('where one is not to be found, comes twice or is broken', async () => {
    await put('one/broken/1.0.0.yaml', 'pack: broken\n');
    const one = library('one');
    for (const before of ['', `# ${'-'.repeat(60)}\n`, '']) {
      const line = before === '' ? 7 : 8;
      const read = async (packs: string): Promise<string> =>
        told(await against(job(`packs: [${packs}]\n`, before), one));
      expect(await read('nothing@1')).toBe(`unknown-pack ${line}`);
      expect(await read('frame@9')).toBe(`unknown-pack-version ${line}`);
      expect(await read('frame@1, frame@2')).toBe(`duplicate-id ${line}`);
      expect(await read('frame@1, broken@1')).toMatch(/elsewhere/u);
      expect(await read('frame@1')).toBe('frame 1.0.0: 100.00');
    }
  });
});
