import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { makeFolder } from '../../support/folder.ts';
import { projectRoot } from '../../support/run.ts';
import { jobText, pinned } from '../../support/sweep.ts';

describe('the program that users start, with threads', () => {
  it('gives byte for byte what it gives without, kept or not', async () => {
    const files = Object.fromEntries(
      Array.from({ length: 30 }, (_, index) => [
        `j${index}.yaml`,
        index % 4 === 0 ? pinned({ job: `J${index}` }) : jobText({ job: `J${index}`, name: 'Shuttle ö 4' }),
      ]),
    );
    const folder = await makeFolder({
      ...files,
      'broken.yaml': 'worksheet: 1\n',
      'shut.yaml': jobText({ status: 'closed' }),
    });
    const env = { ...process.env, XDG_CACHE_HOME: `${folder.path}/../cache` };
    const sweep = (...argv: string[]) => {
      const asOf = ['--as-of', '2026-03-02T18:00', '--format', 'ndjson'];
      const { status, stdout, stderr } = spawnSync(
        process.execPath,
        [`${projectRoot}/bin/cornerwise.js`, 'sweep', '.', ...asOf, ...argv],
        { cwd: folder.path, env, encoding: 'utf8' },
      );
      return { status, stdout, stderr };
    };
    const alone = sweep('--workers', '1', '--no-cache');
    expect(alone.status).toBe(2);
    expect(alone.stdout.split('\n')).toHaveLength(32);
    expect(sweep('--workers', '3')).toEqual(alone);
    expect(sweep('--workers', '2')).toEqual(alone);
    expect(sweep('--workers', '2', '--no-cache')).toEqual(alone);
  });
});
