import { describe, expect, it } from 'vitest';
import { runCli } from '../../support/run.ts';

describe('a row of a sweep', () => {
  it('counts no reminder among the hold points', async () => {
    const { stdout } = await runCli([
      ...['sweep', 'examples/shuttle-07-left-rear-low.yaml', '--as-of', '2026-03-02T18:00', '--no-cache'],
      ...['--format', 'json'],
    ]);
    const { rows } = JSON.parse(stdout) as { rows: { holdPoints: { id: string; clear: boolean }[] }[] };
    expect(rows[0]?.holdPoints).toMatchObject([{ id: 'release', clear: false }]);
  });
});
