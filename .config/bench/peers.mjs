// General-purpose programs that hold YAML files to a schema or to one trivial rule, on the same 1 000 files. They are
// installed into a folder of their own; without the npm registry this part says so and is left out.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { alternate, bin, figure, ratioOf, root, run, told, writeJobs } from './tools.mjs';

const peers = ['ajv-cli@5.0.0', '@stoplight/spectral-cli@6.16.3', 'v8r@6.1.0'];

export const peerPairs = (folder, rounds) => {
  console.log(`\n1 000 jobs, beside programs that only validate, ${rounds} rounds`);
  const place = join(folder, 'peers');
  mkdirSync(place);
  writeFileSync(join(place, 'package.json'), '{"private": true}');
  const install = ['install', '--no-audit', '--no-fund', '--ignore-scripts', ...peers];
  const { status } = spawnSync('npm', install, { cwd: place, encoding: 'utf8' });
  if (status !== 0) {
    console.log('  left out: the npm registry did not answer');
    return;
  }
  const jobs = join(place, 'jobs');
  writeJobs(jobs, 1_000);
  cpSync(join(root, 'dist/schemas/job.json'), join(place, 'job.json'));
  writeFileSync(
    join(place, 'ruleset.yaml'),
    'rules: {job-named: {given: $, then: {field: job, function: truthy}}}\n',
  );
  const commandOf = (name, command) => {
    const folder = join(place, 'node_modules', name);
    const { bin: bins } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
    return join(folder, typeof bins === 'string' ? bins : bins[command]);
  };
  const peer = (name, command, args) => () => run([commandOf(name, command), ...args], { cwd: place });
  const asOf = ['--as-of', '2026-03-02T18:00', '--fail-on', 'never'];
  const times = alternate(
    {
      'cornerwise sweep --no-cache': () =>
        run([bin, 'sweep', jobs, '--no-cache', '--format', 'ndjson', ...asOf]),
      'ajv-cli, the schema': peer('ajv-cli', 'ajv', [
        ...['validate', '-s', 'job.json', '-d', 'jobs/*/*.yaml', '--spec=draft7', '--strict=false'],
      ]),
      'spectral, one rule': peer('@stoplight/spectral-cli', 'spectral', [
        ...['lint', '-r', 'ruleset.yaml', 'jobs/*/*.yaml'],
      ]),
      'v8r, the schema': peer('v8r', 'v8r', ['--schema', 'job.json', 'jobs/*/*.yaml']),
    },
    rounds,
  );
  told(times);
  for (const [name, limit] of [
    ['ajv-cli, the schema', 0.35],
    ['spectral, one rule', 1.5],
    ['v8r, the schema', 5],
  ]) {
    figure(`${name} / cornerwise sweep`, ratioOf(times, name, 'cornerwise sweep --no-cache'), {
      limit,
      aim: 1,
      atLeast: true,
    });
  }
};
