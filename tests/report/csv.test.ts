import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../src/input/problem.ts';
import { renderCsv } from '../../src/report/csv.ts';
import { parseCsv } from '../support/parse-csv.ts';
import { runCli } from '../support/run.ts';

const job = 'examples/shuttle-07-left-rear-low.yaml';
const at = ['--as-of', '2026-03-02T18:00'];

interface Json {
  readonly jobs: readonly [
    { readonly findings: readonly { readonly id: string; readonly measured: { readonly value: number } }[] },
  ];
}

describe('check --format csv (RFC 4180)', () => {
  it('has a line for each finding of the JSON, with its value at full precision', async () => {
    const csv = await runCli(['check', job, ...at, '--format', 'csv']);
    const json = JSON.parse((await runCli(['check', job, ...at, '--format', 'json'])).stdout) as Json;
    const [head = [], ...rows] = parseCsv(csv.stdout);
    const column = (name: string): string[] => rows.map((row) => row[head.indexOf(name)] ?? '');
    const [{ findings }] = json.jobs;
    expect(column('finding')).toEqual(findings.map(({ id }) => id));
    expect(column('value')).toEqual(
      findings.map(({ measured }) => (measured === null ? '' : String(measured.value))),
    );
    expect(rows.every((row) => row.length === head.length)).toBe(true);
    expect(csv.code).toBe(1);
  });

  it('has a line for each problem of a file, at its place', async () => {
    const { stdout, stderr, code } = await runCli(['check', 'job.yaml', '--format', 'csv'], {
      files: { 'job.yaml': 'worksheet: 1\njbo: S07-0001\n' },
    });
    const [head = [], ...rows] = parseCsv(stdout);
    const misspelt = rows.find((row) => row.includes('unknown-key'));
    expect(misspelt?.[head.indexOf('line')]).toBe('2');
    expect(misspelt?.[head.indexOf('says')]).toContain('jbo');
    expect({ stderr, code }).toEqual({ stderr: '', code: 2 });
  });

  it('keeps any text in its cell, and lets no spreadsheet run it', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), fc.constantFrom('', '=', '+', '-', '@'), (text, sign) => {
        const problem: Problem = {
          code: 'yaml-syntax',
          message: sign + text,
          hint: null,
          line: 1,
          column: 1,
          lineText: null,
          file: null,
        };
        const csv = renderCsv([{ file: 'a,"b".yaml', sheet: null, problems: [problem] }]);
        const [head = [], row = [], ...more] = parseCsv(csv);
        expect(more).toEqual([]);
        expect(row).toHaveLength(head.length);
        expect(row[0]).toBe('a,"b".yaml');
        expect(row[head.indexOf('says')]).not.toMatch(/^[=+\-@]|[\r\n]/u);
      }),
    );
  });
});
