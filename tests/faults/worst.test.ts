import { describe, expect, it } from 'vitest';
import { mostProblems } from '../../src/input/problem.ts';
import { largest } from '../../src/input/yaml/decode.ts';
import { readYaml } from '../../src/input/yaml/read-yaml.ts';
import { runCli } from '../support/run.ts';
import { worstTexts } from './worst-texts.ts';

/** The work that a text may cause is counted: `npm run bench` measures what that comes to, for all texts and sizes. */
const texts = new Map(worstTexts(largest));

describe('the dearest texts', () => {
  it('are as large as a file may be, and of many kinds', () => {
    expect(texts.size).toBeGreaterThan(80);
    for (const [kind, text] of texts) {
      const size = Buffer.byteLength(text);
      expect([kind, size <= largest && size > largest * 0.9]).toEqual([kind, true]);
    }
  });

  it.each([
    'one tag behind another',
    'known tags',
    'wrong escapes',
    'anchors',
    'aliases',
    'numbers in brackets',
    'numbers in brackets without blanks',
    'one key again and again',
    'one key again and again in braces',
    'many keys',
    'snapshots',
  ])('%s end where there is more than is read', (kind) => {
    expect(readYaml(texts.get(kind) ?? '').flaws.map(({ code }) => code)).toEqual(['too-many']);
  });

  it('tell so many problems of a file and count the rest', async () => {
    const keys = Array.from({ length: 2000 }, (_, index) => `k${index}: 1\n`).join('');
    const files = { 'a.yaml': `vehicle: Shuttle 7\n${keys}`, 'b.yaml': 'vehicle: Shuttle 7\n' };
    const { stdout } = await runCli(['check', 'a.yaml', '--format', 'ndjson'], { files });
    const { problems } = JSON.parse(stdout);
    expect(problems).toHaveLength(mostProblems + 1);
    expect(problems.at(-1).message).toMatch(/^there are \d+ more problems from here on$/u);
  });
});
