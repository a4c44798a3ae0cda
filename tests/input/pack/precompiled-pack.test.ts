import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/core/assess.ts';
import type { Pack } from '../../../src/core/pack.ts';
import { aheadOf, type PackAhead, packOfAhead } from '../../../src/input/pack/precompiled-pack.ts';
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

/** What a check does stands apart: a function is the same as no other. */
const asData = (pack: Pack) => ({
  ...pack,
  checks: pack.checks.map(({ rule: { judge, ...rule }, ...check }) => ({ ...check, rule })),
});

const packs = new Map(files.map((file) => [file.split('/')[1] ?? '', read(file).pack]));

describe.each(files)('%s read ahead', (file) => {
  const { text, pack, root } = read(file);
  const ahead = packOfAhead(JSON.parse(JSON.stringify(aheadOf(pack, root))) as PackAhead);

  it('is the pack of its file', () => {
    expect(asData(ahead)).toStrictEqual(asData(pack));
  });

  it('judges as the pack of its file does', () => {
    const judged = (one: Pack) =>
      readProofs(text, file, root, one, packs)
        .proofs.map(({ job, packs: used, asOf }) => assess(job, used, asOf))
        .map(({ findings, steps, holdPoints }) => ({ findings, steps, holdPoints }));
    const sheets = judged(ahead);
    expect(sheets).toEqual(judged(pack));
    expect(sheets.length).toBe(itemsOf(get(root, 'proofs')).length);
  });
});

it('a check that has changed in a way that its kind refuses is no pack', () => {
  const { pack, root } = read('rules/position-signals/1.1.0.yaml');
  const ahead = JSON.parse(JSON.stringify(aheadOf(pack, root))) as PackAhead;
  const other = packOfAhead({
    ...ahead,
    checks: ahead.checks.map((one) => ({ ...one, read: { ...one.read, kind: 'x' } })),
  });
  expect(() => other.checks[0]?.rule).toThrow('was read ahead, and does not read now');
});
