import { describe, expect, it } from 'vitest';
import { runCli } from '../support/run.ts';

const job = 'examples/shuttle-12-four-sensor-codes.yaml';
const at = ['--as-of', '2026-03-05T18:00'];

describe('next', () => {
  it('gives the JSON document of check', async () => {
    const next = await runCli(['next', job, ...at, '--format', 'json']);
    const check = await runCli(['check', job, ...at, '--format', 'json']);
    expect(next.stdout).toBe(check.stdout);
    expect(next.code).toBe(0);
    const [sheet] = (JSON.parse(next.stdout) as { jobs: { suspects: { id: string }[] }[] }).jobs;
    expect(sheet?.suspects[0]?.id).toBe('reference-circuit');
  });

  it('gives the problems of a file in the JSON, too', async () => {
    const { stdout, stderr, code } = await runCli(['next', 'no-such-file.yaml', '--format', 'json']);
    expect(JSON.parse(stdout)).toMatchObject({
      jobs: [{ file: 'no-such-file.yaml', job: null, problems: [{ code: 'file-not-found' }] }],
    });
    expect({ stderr, code }).toEqual({ stderr: '', code: 2 });
  });

  it('tells what of the job lies after the time judged', async () => {
    const later = 'examples/shuttle-13-lamp-since-the-wash.yaml';
    const { stdout } = await runCli(['next', later, '--as-of', '2026-03-02T18:00']);
    expect(stdout).toContain('warning: snapshot as-found (2026-03-12 08:25) lies after the time judged');
    expect(stdout).toContain('Nothing is out, so there is no suspect.');
  });

  it('refuses a format that it does not have', async () => {
    const { stderr, code } = await runCli(['next', job, '--format', 'csv']);
    expect(code).toBe(2);
    expect(stderr).toContain('--format');
  });
});
