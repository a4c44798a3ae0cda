import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import { beforeAll, describe, expect, it } from 'vitest';
import { schemas } from '../../src/input/schema/all-schemas.ts';
import { projectRoot, runCli } from '../support/run.ts';

/** The members of the machine output that the tests below ask for; the schema is held to in json.test.ts. */
interface JudgedJob {
  readonly file: string;
  readonly packs: readonly { id: string; version: string; sha256: string }[];
  readonly findings: readonly {
    id: string;
    check: string;
    snapshot: string | null;
    subject: string;
    verdict: string;
    measured: { value: number; expanded: number } | null;
    limits: { low: number | null; high: number | null } | null;
    inside: number | null;
  }[];
  readonly suspects: readonly { id: string; probability: number; for: string[]; against: string[] }[];
  readonly hypotheses: readonly { id: string; probability: number }[];
  readonly nextTests: readonly { id: string; saves: number | null }[];
  readonly steps: readonly { id: string; state: string; waitsFor: string[]; because: string }[];
  readonly release: { verdict: string; says: string };
  readonly holdPoints: readonly { id: string; clear: boolean; reasons: string[] }[];
}

interface Output {
  readonly tool: { name: string; version: string };
  readonly asOf: string;
  readonly jobs: readonly JudgedJob[];
}

const examples = readdirSync(join(projectRoot, 'examples'))
  .filter((file) => file.startsWith('shuttle-'))
  .map((file) => `examples/${file}`);
const asOf = ['--as-of', '2026-07-20T12:00Z', '--format', 'json'];

let stdout = '';
let output: Output;
beforeAll(async () => {
  ({ stdout } = await runCli(['check', ...examples, ...asOf]));
  output = JSON.parse(stdout);
});

const job = (name: string): JudgedJob => {
  const found = output.jobs.find(({ file }) => file.includes(name));
  if (!found) throw new Error(`no job ${name}`);
  return found;
};

const finding = (name: string, id: string) => job(name).findings.find((one) => one.id === id);

describe('the machine output as a whole', () => {
  it('is JSON indented by two spaces, one member of jobs for each file in the order of the call', () => {
    expect(stdout).toBe(`${JSON.stringify(output, null, 2)}\n`);
    expect(output.jobs.map(({ file }) => file)).toEqual(examples);
  });

  it('names the program, its version and the time that it judged at', () => {
    const { version } = JSON.parse(readFileSync(join(projectRoot, 'package.json'), 'utf8'));
    expect(output.tool).toEqual({ name: 'cornerwise', version });
    expect(output.asOf).toBe('2026-07-20T12:00:00.000Z');
  });

  it('fits its schema', () => {
    const ajv = new Ajv({
      allErrors: true,
      strict: true,
      allowUnionTypes: true,
      formats: { 'date-time': true },
    });
    const validate = ajv.compile(schemas.output);
    validate(output);
    expect(validate.errors ?? []).toEqual([]);
  });
});

describe.each(examples)('%s', (file) => {
  it('names packs with the digest of their files', () => {
    const { packs } = job(file);
    expect(packs).not.toEqual([]);
    for (const { id, version, sha256 } of packs) {
      const bytes = readFileSync(join(projectRoot, 'rules', id, `${version}.yaml`));
      expect(sha256).toBe(createHash('sha256').update(bytes).digest('hex'));
    }
  });

  it('builds the id of a finding from its check, subject and snapshot, each once', () => {
    const { findings } = job(file);
    expect(findings).not.toEqual([]);
    for (const { id, check, subject, snapshot } of findings) {
      expect(id).toBe(`${check}:${subject}${snapshot === null ? '' : `@${snapshot}`}`);
    }
    expect(new Set(findings.map(({ id }) => id)).size).toBe(findings.length);
  });

  it('measures nothing that was not taken', () => {
    for (const { verdict, measured, limits, inside } of job(file).findings) {
      if (verdict === 'not-taken') expect([measured, limits, inside]).toEqual([null, null, null]);
    }
  });

  it('has what is within likelier inside its limits than not, and what is out the other way round', () => {
    const measured = job(file).findings.filter(({ inside }) => inside !== null);
    expect(measured.length).toBeGreaterThan(0);
    for (const { id, verdict, inside, ...one } of measured) {
      const value = one.measured?.value ?? Number.NaN;
      const within = value >= (one.limits?.low ?? -1e9) && value <= (one.limits?.high ?? 1e9);
      if (verdict !== 'too-close') expect([id, verdict === 'within']).toEqual([id, within]);
      if (verdict !== 'too-close') expect([id, (inside ?? 0) > 0.5]).toEqual([id, within]);
    }
  });

  it('gives suspects probabilities that fall, all that may be wrong ones that sum to 1, and what is for and against', () => {
    const { suspects, hypotheses, findings, nextTests } = job(file);
    const ids = new Set(findings.map(({ id }) => id));
    const probabilities = suspects.map(({ probability }) => probability);
    const all = hypotheses.map(({ probability }) => probability);
    if (suspects.length > 0) expect(all.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 12);
    else expect(nextTests).toEqual([]);
    expect(probabilities).toEqual(probabilities.toSorted((a, b) => b - a));
    for (const { for: pro, against } of suspects) {
      // Evidence is a finding, or a test that the log gives the result of.
      const unknown = [...pro, ...against].filter((id) => !ids.has(id) && !/^test [a-z]/u.test(id));
      expect(unknown).toEqual([]);
    }
  });

  it('says whether the vehicle may leave, in the words of the sheet', async () => {
    const { verdict, says } = job(file).release;
    const sheet = await runCli(['check', file, '--as-of', '2026-07-20T12:00Z', '--width', '240']);
    expect(sheet.stdout.split('\n')[1]).toBe(says);
    expect(says.toLowerCase().replaceAll(' ', '-')).toMatch(new RegExp(`^${verdict}:`, 'u'));
  });

  it('lists every step once, those that wait with what they wait for', () => {
    const { steps } = job(file);
    expect(steps).not.toEqual([]);
    expect(new Set(steps.map(({ id }) => id)).size).toBe(steps.length);
    for (const { state, waitsFor } of steps) expect(waitsFor.length > 0).toBe(state === 'waiting');
  });

  it('gives reasons to the hold points that are not clear, and to no other', () => {
    const { holdPoints } = job(file);
    expect(holdPoints).not.toEqual([]);
    for (const { clear, reasons } of holdPoints) expect(reasons.length === 0).toBe(clear);
  });
});

describe('figures worked out by hand', () => {
  it('left against right: a falling sensor is turned about the 5 V reference before it is compared', () => {
    // LR 1.12 V; RR 2.61 V of 5 V is 2.39 V. The module's ± 0.05 V is one of each input, turned sensors or not.
    const standard = Math.hypot((Math.SQRT2 * 0.05) / Math.sqrt(3), (0.01 / Math.sqrt(12)) * Math.SQRT2);
    expect(finding('shuttle-07', 'position-signals/left-right:rear@as-found')).toMatchObject({
      verdict: 'out',
      weight: 'hold',
      current: true,
      channels: ['position.LR', 'position.RR'],
      measured: { value: expect.closeTo(-1.27, 12), unit: 'V', expanded: expect.closeTo(2 * standard, 12) },
      limits: { low: -1, high: 1, unit: 'V' },
      // The normal probability beyond 0.27 V / 0.041 03 V = 6.581 standard deviations.
      inside: expect.closeTo(2.34e-11, 13),
    });
  });

  it('one reading: half-width and last digit, each as a rectangular distribution', () => {
    const standard = Math.hypot(0.05 / Math.sqrt(3), 0.01 / Math.sqrt(12));
    expect(finding('shuttle-07', 'position-signals/ride-band:LR@as-found')).toMatchObject({
      measured: { value: 1.12, unit: 'V', expanded: expect.closeTo(2 * standard, 12) },
      limits: { low: 1.6, high: 3.1, unit: 'V' },
      basis: { kind: 'vehicle-data', source: 'workshop manual, suspension chapter' },
    });
  });

  it('a job that holds the vehicle ends with 1, a sound one with 0', async () => {
    expect((await runCli(['check', examples.find((one) => one.includes('-07-')) ?? '', ...asOf])).code).toBe(
      1,
    );
    expect((await runCli(['check', examples.find((one) => one.includes('-19-')) ?? '', ...asOf])).code).toBe(
      0,
    );
  });

  it('the likeliest suspect of a corner that is low alone is the linkage of that corner', () => {
    expect(job('shuttle-07').suspects[0]).toMatchObject({ id: 'linkage.LR', title: 'sensor linkage, LR' });
  });
});

describe('a file that cannot be judged', () => {
  it('stands among the others with its problems', async () => {
    const call = ['check', 'examples/no-such-file.yaml', 'examples/mistakes/shuttle-08.yaml', ...asOf];
    const { stdout: printed, code } = await runCli(call);
    const [missing, mistaken] = JSON.parse(printed).jobs;
    expect(code).toBe(2);
    expect(missing).toEqual({
      file: 'examples/no-such-file.yaml',
      job: null,
      problems: [
        {
          code: 'file-not-found',
          message: 'there is no such file',
          line: null,
          column: null,
          hint: 'check the name and the folder',
        },
      ],
    });
    const text = readFileSync(join(projectRoot, 'examples/mistakes/shuttle-08.yaml'), 'utf8').split('\n');
    expect(mistaken.problems.length).toBeGreaterThan(1);
    for (const { line, column } of mistaken.problems) {
      expect(column).toBeLessThanOrEqual((text[line - 1] ?? '').length + 1);
    }
  });
});
