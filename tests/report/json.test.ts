import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { schemas } from '../../src/input/schema/all-schemas.ts';
import { closedSchema } from '../support/closed-schema.ts';
import { projectRoot, runCli } from '../support/run.ts';

/** The machine output is held to the schema that ships with it, with no members but those that it names. */
const ajv = new Ajv({ allErrors: true, strict: true, allowUnionTypes: true, formats: { 'date-time': true } });
const published = ajv.compile(schemas.output);
const validate = ajv.compile({ ...closedSchema(schemas.output), $id: 'closed-output.json' });
const jobs = readdirSync(join(projectRoot, 'examples')).filter((file) => file.startsWith('shuttle-'));
const paths = jobs.map((job) => `examples/${job}`);
const asOf = ['--as-of', '2026-07-20T12:00Z'];

describe('check --format json', () => {
  it('fits its schema for every example, at three times, and for files that cannot be judged', async () => {
    for (const time of ['2026-01-01T00:00Z', '2026-02-27T15:00Z', '2026-07-20T12:00Z']) {
      const { stdout } = await runCli([
        'check',
        ...paths,
        'examples/mistakes/shuttle-08.yaml',
        'no-such-file.yaml',
        '--as-of',
        time,
        '--format',
        'json',
      ]);
      const output: unknown = JSON.parse(stdout);
      expect(validate(output), JSON.stringify(validate.errors)).toBe(true);
      expect(output).toMatchObject({
        format: 1,
        tool: { name: 'cornerwise' },
        asOf: new Date(time).toISOString(),
      });
    }
  });

  it('the closed schema refuses a member too many, the published one only one too few', async () => {
    const { stdout } = await runCli(['check', paths[0] ?? '', ...asOf, '--format', 'json']);
    const output = JSON.parse(stdout) as { jobs: Record<string, unknown>[] };
    const more = { ...output, jobs: [{ ...output.jobs[0], extra: 1 }] };
    const less = { ...output, jobs: [{ ...output.jobs[0], steps: undefined }] };
    expect([validate(more), published(more)]).toEqual([false, true]);
    expect([validate(less), published(less)]).toEqual([false, false]);
    expect(published({ ...output, format: 2 })).toBe(false);
  });

  it('has the members in the order that is documented', async () => {
    const { stdout } = await runCli(['check', paths[0] ?? '', ...asOf, '--format', 'json']);
    const output = JSON.parse(stdout) as { jobs: Record<string, unknown>[] };
    expect(Object.keys(output)).toEqual(['format', 'tool', 'asOf', 'jobs']);
    expect(Object.keys(output.jobs[0] ?? {})).toEqual([
      'file',
      'job',
      'title',
      'vehicle',
      'status',
      'packs',
      'findings',
      'suspects',
      'hypotheses',
      'evidence',
      'pair',
      'stakes',
      'nextTests',
      'advice',
      'steps',
      'release',
      'now',
      'instead',
      'worthTaking',
      'dangers',
      'beforeAfter',
      'compared',
      'holdPoints',
      'warnings',
    ]);
  });

  it('gives findings ids that are unique in a job', async () => {
    const { stdout } = await runCli(['check', ...paths, ...asOf, '--format', 'json']);
    const output = JSON.parse(stdout) as { jobs: { findings: { id: string }[] }[] };
    for (const { findings } of output.jobs) {
      expect(new Set(findings.map(({ id }) => id)).size).toBe(findings.length);
    }
  });

  it('tells of every quantity its factor and all its tiers, the one that is reported among them', async () => {
    type Tier = { weight: string; limits: { low: number | null; high: number | null }; inside: number };
    type Told = Tier & { measured: unknown; coverage: number | null; tiers: Tier[] };
    const { stdout } = await runCli(['check', ...paths, ...asOf, '--format', 'json']);
    const output = JSON.parse(stdout) as { jobs: { findings: Told[] }[] };
    const findings = output.jobs.flatMap((job) => job.findings);
    const quantities = findings.filter(({ measured }) => measured !== null);
    expect(quantities.length).toBeGreaterThan(100);
    for (const { limits, inside, coverage, tiers } of quantities) {
      expect(coverage).toBeGreaterThanOrEqual(2);
      expect(tiers).toContainEqual(
        expect.objectContaining({ limits: { low: limits.low, high: limits.high }, inside }),
      );
    }
    for (const { measured, coverage, tiers } of findings)
      if (measured === null) expect([coverage, tiers]).toEqual([null, []]);
  });

  it('says something of every finding', async () => {
    const { stdout } = await runCli(['check', ...paths, ...asOf, '--format', 'json']);
    const output = JSON.parse(stdout) as { jobs: { findings: { id: string; says: string }[] }[] };
    const silent = output.jobs.flatMap(({ findings }) => findings).filter(({ says }) => says === '');
    expect(silent).toEqual([]);
  });
});

describe('check --format ndjson', () => {
  it('is the members of jobs, one a line, each with the format in front', async () => {
    const json = await runCli(['check', ...paths, ...asOf, '--format', 'json']);
    const lines = await runCli(['check', ...paths, ...asOf, '--format', 'ndjson']);
    const members = lines.stdout
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as unknown);
    const { jobs: whole } = JSON.parse(json.stdout) as { jobs: object[] };
    expect(members).toEqual(whole.map((job) => ({ format: 1, ...job })));
    expect(lines.stdout).toMatch(/^\{"format":1,"file":/u);
    expect(lines.code).toBe(json.code);
  });
});

describe('a file name with controls in it', () => {
  it.each(['json', 'ndjson', 'table'])('is never sent raw: %s', async (format) => {
    const name = 'no\u202esuch\u009b31m\u001b[2J.yaml';
    const { stdout, stderr } = await runCli(['check', name, '--format', format]);
    expect(`${stdout}${stderr}`).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/u);
    if (format === 'ndjson') expect((JSON.parse(stdout) as { file: string }).file).toBe(name);
  });
});
