import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/core/assess.ts';
import type { Pack } from '../../../src/core/pack.ts';
import { readPack } from '../../../src/input/pack/read-pack.ts';
import { readProofs } from '../../../src/input/pack/read-proofs.ts';
import { get, itemsOf } from '../../../src/input/yaml/tree.ts';

const files = readdirSync('rules', { recursive: true })
  .map((file) => `rules/${String(file)}`)
  .filter((file) => file.endsWith('.yaml'));

const read = (file: string) => {
  const text = readFileSync(file, 'utf8');
  const { pack, root, problems } = readPack(text, file, `hash of ${file}`);
  if (pack === null || root === null) throw new Error(problems.map(({ message }) => message).join());
  return { text, pack, root };
};

const packs = new Map(files.map((file) => [file.split('/')[1] ?? '', read(file).pack]));

describe.each(files)('%s as the build keeps it', (file) => {
  const { text, pack, root } = read(file);
  const precompiled = JSON.parse(JSON.stringify(pack)) as Pack;

  it('is the pack of its file', () => {
    expect(precompiled).toStrictEqual(pack);
  });

  it('judges as the pack of its file does', () => {
    const judged = (one: Pack) =>
      readProofs(text, file, root, one, packs)
        .proofs.map(({ job, prepared, asOf }) => assess(job, prepared, asOf))
        .map(({ findings, steps, holdPoints }) => ({ findings, steps, holdPoints }));
    const sheets = judged(precompiled);
    expect(sheets).toEqual(judged(pack));
    expect(sheets.length).toBe(itemsOf(get(root, 'proofs')).length);
  });
});
