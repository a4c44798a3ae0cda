// What the dearest files of 2 MiB cost: CPU time and memory of a whole call, each beside its limit.
import { mkdirSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { bundleBench } from './run-bundled.mjs';
import { bin, figure, run } from './tools.mjs';

export const worst = async (folder) => {
  const outfile = join(folder, 'write-texts.mjs');
  await bundleBench('worst/write-texts.ts', outfile);
  const texts = join(folder, 'texts');
  mkdirSync(texts, { recursive: true });
  run([outfile, texts]);
  const names = readdirSync(texts);
  console.log(
    `\nThe dearest files of up to 2 MiB, one call of check for each of ${names.length}: takes minutes`,
  );
  const costs = names.map((name, index) => {
    if (index % 20 === 19) console.log(`  ${index + 1} of ${names.length} done`);
    return {
      name,
      ...run([bin, 'check', join(texts, name), '--as-of', '2026-03-02T18:00', '--format', 'ndjson'], {
        codes: [0, 1, 2],
      }),
    };
  });
  const by = (key) => [...costs].sort((a, b) => b[key] - a[key]);
  for (const { name, cpu, megabytes } of by('cpu').slice(0, 8))
    console.log(`  ${name.padEnd(50)} ${(cpu / 1000).toFixed(2)} s ${megabytes.toFixed(0)} MB`);
  figure('the dearest file, CPU', by('cpu')[0].cpu / 1000, { limit: 2, aim: 1, unit: ' s' });
  figure('the largest of them in memory', by('megabytes')[0].megabytes, {
    limit: 400,
    aim: 250,
    unit: ' MB',
  });
};
