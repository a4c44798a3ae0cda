import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { chmod, mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { projectRoot } from './support/run.ts';
import { jobText, pinned } from './support/sweep.ts';

/** What docs/many-machines.md gives is run as it stands there. */
const text = readFileSync(join(projectRoot, 'docs/many-machines.md'), 'utf8');
const blocks = [...text.matchAll(/```(?:sh|yaml)\n([\s\S]*?)```/gu)].map(([, body = '']) => body);
const blockWith = (part: string): string => blocks.find((body) => body.includes(part)) ?? '';

let shop = '';
let env: Record<string, string> = {};

const sh = (script: string, more: Record<string, string> = {}) =>
  spawnSync('sh', ['-c', script], { cwd: shop, env: { ...env, ...more }, encoding: 'utf8' });

const sorted = (name: string): string[] => readFileSync(join(shop, name), 'utf8').split('\n').sort();

beforeAll(async () => {
  const folder = await mkdtemp(join(tmpdir(), 'cornerwise-docs-'));
  shop = join(folder, 'shop');
  await mkdir(join(shop, 'jobs'), { recursive: true });
  await mkdir(join(folder, 'bin'));
  const program = join(folder, 'bin/cornerwise');
  const start = `#!/bin/sh\nexec "${process.execPath}" "${join(projectRoot, 'bin/cornerwise.js')}" "$@"\n`;
  await writeFile(program, start);
  await chmod(program, 0o755);
  const packs = '[position-signals@1, supply-charging@1, handover@1]';
  await writeFile(join(shop, 'jobs/cornerwise.yaml'), `packs: ${packs}\nzone: Europe/Dublin\n`);
  for (let index = 0; index < 24; index += 1) {
    const job = index % 5 === 0 ? pinned({ job: `J${index}` }) : jobText({ job: `J${index}` });
    await writeFile(join(shop, `jobs/j${index}.yaml`), job);
  }
  await writeFile(join(shop, 'jobs/broken.yaml'), 'worksheet: 1\njob: [\n');
  env = {
    PATH: `${join(folder, 'bin')}:${process.env.PATH ?? ''}`,
    HOME: folder,
    XDG_CACHE_HOME: join(folder, 'cache'),
  };
  const { status } = sh('cornerwise sweep jobs --format ndjson --fail-on never > whole.ndjson');
  expect(status).toBe(1);
});
afterAll(() => rm(join(shop, '..'), { recursive: true, force: true }));

/** Rows without the instant at which each shard was judged, and the days until then. */
const judged = (name: string): string[] =>
  sorted(name).map((line) => line.replace(/"(?:asOf":"[^"]*"|asOf":\d+|daysOpen":\d+),/gu, ''));

describe('the shards of docs/many-machines.md', () => {
  it('by a Slurm array make one sweep', async () => {
    const script = blockWith('#SBATCH');
    const [, from, to] = /--array=(\d+)-(\d+)/u.exec(script) ?? [];
    for (let task = Number(from); task <= Number(to); task += 1) {
      const task_env = { SLURM_ARRAY_TASK_ID: String(task), SLURM_ARRAY_TASK_COUNT: String(to) };
      expect([0, 1]).toContain(sh(script, task_env).status);
    }
    sh('cat shards/*.ndjson > tonight.ndjson; rm -r shards');
    expect(judged('tonight.ndjson')).toEqual(judged('whole.ndjson'));
  });

  it('by a Kubernetes indexed job make one sweep, in which a file that cannot be judged is no failure', () => {
    const { spec } = parse(blockWith('kind: Job'));
    expect(spec.completionMode).toBe('Indexed');
    const [, , script] = spec.template.spec.containers[0].command;
    for (let index = 0; index < spec.completions; index += 1) {
      expect(sh(script, { JOB_COMPLETION_INDEX: String(index) }).status).toBe(0);
    }
    sh('cat shards/*.ndjson > tonight.ndjson; rm -r shards');
    expect(judged('tonight.ndjson')).toEqual(judged('whole.ndjson'));
  });

  const hasParallel = spawnSync('parallel', ['--version']).status === 0;
  describe.each(hasParallel ? ['GNU parallel'] : [])('by %s', () => {
    it('make one sweep, and the next night compares with it', () => {
      const run = (script: string) => sh(script.replace('parallel ', 'parallel --will-cite '));
      run(blockWith('--shard {}/8 --format'));
      expect(judged('tonight.ndjson')).toEqual(judged('whole.ndjson'));
      execFileSync('mv', ['tonight.ndjson', 'last.ndjson'], { cwd: shop });
      run(blockWith('--since last.ndjson'));
      const kinds = sorted('tonight.ndjson')
        .filter((line) => line !== '')
        .map((line) => JSON.parse(line).change.kind);
      expect(new Set(kinds)).toEqual(new Set(['unchanged']));
      expect(kinds).toHaveLength(25);
    });
  });
});
