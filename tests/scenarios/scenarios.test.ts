import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeWorkspace, parseRecording, runRecorded } from '../support/recorded-console.ts';
import { projectRoot } from '../support/run.ts';

/**
 * Whole commands with their whole output, as a user sees them. Each file is a recording that somebody read
 * before it was kept.
 */
const folder = join(projectRoot, 'tests/scenarios');
const files = readdirSync(folder).filter((file) => file.endsWith('.txt'));
const update = process.env.UPDATE_RECORDINGS === '1';

describe.each(files)('%s', (file) => {
  const path = join(folder, file);
  const entries = parseRecording(readFileSync(path, 'utf8'));

  let workspace: Awaited<ReturnType<typeof makeWorkspace>>;
  beforeAll(async () => {
    workspace = await makeWorkspace();
  });
  afterAll(() => workspace.remove());

  if (update) {
    it('is recorded again', async () => {
      const parts: string[] = [];
      for (const { command } of entries)
        parts.push(`$ ${command}\n${await runRecorded(command, workspace.cwd)}\n`);
      writeFileSync(path, parts.join('\n'));
    }, 300_000);
    return;
  }

  it.each(entries)('$command', async ({ command, output }) => {
    expect(await runRecorded(command, workspace.cwd)).toBe(output);
  });
});

describe('the examples', () => {
  const jobs = readdirSync(join(projectRoot, 'examples')).filter((file) => file.startsWith('shuttle-'));

  it('are at least eight', () => {
    expect(jobs.length).toBeGreaterThanOrEqual(8);
  });

  it.each(jobs)('%s has a scenario and an answer', (job) => {
    const told = files.some((file) =>
      readFileSync(join(folder, file), 'utf8').includes(`check examples/${basename(job)}`),
    );
    expect(told).toBe(true);
    expect(readFileSync(join(projectRoot, 'examples', job), 'utf8')).toContain('\nx-answer:');
  });
});
