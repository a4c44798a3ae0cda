import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nameHash } from '../../../src/shell/sweep/hash.ts';
import { fallsTo, readShard } from '../../../src/shell/sweep/shard.ts';
import { makeFolder } from '../../support/folder.ts';
import { jobText, pinned } from '../../support/sweep.ts';

describe('a shard', () => {
  it('is the k-th of n, counted from 1', () => {
    expect(readShard('2/8')).toEqual({ number: 2, of: 8 });
    for (const text of ['0/8', '9/8', '1/0', '1', '1/', '-1/8', '1.5/8', '1/8 ', '01/8']) {
      expect(readShard(text)).toBeNull();
    }
  });

  it('has every file in exactly one of them', () => {
    fc.assert(
      fc.property(fc.string(), fc.integer({ min: 1, max: 50 }), (name, of) => {
        const shards = Array.from({ length: of }, (_, index) => ({ number: index + 1, of }));
        expect(shards.filter((shard) => fallsTo(shard, name))).toHaveLength(1);
      }),
    );
  });

  it('is the same on every machine, whichever way its slashes lean', () => {
    // Held by value: another hash would part tonight's shards from those of another machine.
    expect([nameHash(''), nameHash('jobs/s7.yaml'), nameHash('jobs/s8.yaml')]).toMatchInlineSnapshot(`
      [
        2872998923,
        799340735,
        713928609,
      ]
    `);
    expect(fallsTo({ number: 1, of: 7 }, 'a\\b.yaml')).toBe(fallsTo({ number: 1, of: 7 }, 'a/b.yaml'));
  });

  it('has about its share, of names that differ in a digit only', () => {
    const names = Array.from({ length: 8_000 }, (_, index) => `jobs/s${10_000 + index}.yaml`);
    for (let number = 1; number <= 8; number += 1) {
      const share = names.filter((name) => fallsTo({ number, of: 8 }, name)).length;
      // Five standard deviations of a fair draw.
      expect(Math.abs(share - 1_000)).toBeLessThan(150);
    }
  });

  it('gives with the others, one after another, what one sweep gives', async () => {
    const files = Object.fromEntries(
      Array.from({ length: 20 }, (_, index) => [
        `j${index}.yaml`,
        index % 3 === 0 ? pinned({ job: `J${index}` }) : jobText({ job: `J${index}` }),
      ]),
    );
    const folder = await makeFolder(files);
    const sweep = ['sweep', '.', '--format', 'ndjson'];
    const whole = await folder.run(sweep);
    const parts = await Promise.all(
      ['1/3', '2/3', '3/3'].map((shard) => folder.run([...sweep, '--shard', shard])),
    );
    const sorted = (text: string): string[] => text.split('\n').sort();
    expect(sorted(parts.map(({ stdout }) => stdout).join(''))).toEqual(
      [...sorted(whole.stdout), '', ''].sort().slice(2),
    );
    expect(parts.every(({ stdout }) => stdout !== '' && stdout.length < whole.stdout.length)).toBe(true);
  });

  it('compares with its own part of what one sweep gave, and remembers by itself', async () => {
    const folder = await makeFolder({ 'a.yaml': jobText({ job: 'A' }), 'b.yaml': jobText({ job: 'B' }) });
    await folder.run(['sweep', '.', '--out', 'ndjson=last.ndjson']);
    for (const shard of ['1/2', '2/2']) {
      const { stdout } = await folder.run([
        ...['sweep', '.', '--since', 'last.ndjson', '--shard', shard, '--format', 'ndjson'],
      ]);
      expect(stdout).not.toContain('"gone"');
      await folder.run(['sweep', '.', '--remember', '--shard', shard]);
    }
    const names = await folder.names();
    expect(names).toContain('.cornerwise-sweep-1-of-2.ndjson');
    expect(names).toContain('.cornerwise-sweep-2-of-2.ndjson');
  });

  it('may be empty, which is no mistake', async () => {
    const folder = await makeFolder({ 'a.yaml': jobText() });
    const outcomes = await Promise.all(
      ['1/2', '2/2'].map((shard) => folder.run(['sweep', '.', '--shard', shard, '--format', 'ndjson'])),
    );
    expect(outcomes.map(({ code }) => code)).toEqual([0, 0]);
    expect(outcomes.map(({ stdout }) => stdout === '').sort()).toEqual([false, true]);
  });
});
