import { describe, expect, it } from 'vitest';
import type { Batch, Done, SweepSettings } from '../../../src/shell/sweep/batch.ts';
import { openPool } from '../../../src/shell/sweep/pool.ts';

const settings: SweepSettings = {
  cwd: '/',
  rules: [],
  now: 0,
  asOf: null,
  failOn: null,
  closed: false,
  cacheFolder: null,
  program: 'test',
};

const path = new URL('../../support/fake-sweep-worker.cjs', import.meta.url).pathname;
const script = `require(${JSON.stringify(path)})`;

/** Batches of files by their names. */
const batchesOf = (...names: readonly (readonly string[])[]): Batch[] => {
  let index = -1;
  return names.map((some, bucket) => ({
    bucket,
    files: some.map((name) => {
      index += 1;
      return { index, name, named: true };
    }),
  }));
};

const run = async (batches: readonly Batch[], more: Partial<Parameters<typeof openPool>[0]> = {}) => {
  const results: Done[] = [];
  const pool = openPool({
    script,
    count: 2,
    settings,
    patience: 60_000,
    done: (done) => results.push(...done),
    ...more,
  });
  await pool.run(batches);
  return results.sort((a, b) => a.index - b.index);
};

const told = (results: readonly Done[]): string[] =>
  results.map((one) => (one.kind === 'problems' ? (one.problems[0]?.message ?? '') : one.kind));

const ended = 'judging this file ended the thread that did it: ';

describe('threads that judge', () => {
  it('judge every file of every batch once', async () => {
    const results = await run(batchesOf(['a', 'b', 'c'], ['d'], ['e', 'f']));
    expect(results.map(({ index }) => index)).toEqual([0, 1, 2, 3, 4, 5]);
  });

  it('are replaced when they die, with the file named and the others of its batch judged', async () => {
    const results = await run(batchesOf(['a', 'dies', 'b'], ['throws', 'c'], ['dies'], ['d', 'e', 'dies']));
    expect(told(results)).toEqual([
      'closed',
      `${ended}it ended with code 9`,
      'closed',
      `${ended}thrown by the test`,
      'closed',
      `${ended}it ended with code 9`,
      'closed',
      'closed',
      `${ended}it ended with code 9`,
    ]);
  });

  it('are ended where a file takes too long', async () => {
    const results = await run(batchesOf(['a', 'hangs', 'b'], ['c']), { patience: 400 });
    expect(told(results)).toEqual(['closed', `${ended}it took longer than 0 s`, 'closed', 'closed']);
  });

  it('are ended where a file wants more memory than any job', async () => {
    const results = await run(batchesOf(['a', 'eats'], ['b']));
    expect(told(results)[1]).toMatch(/memory/u);
    expect(told(results)[2]).toBe('closed');
  });

  it('give up where they die before they judge anything', async () => {
    const program = { ...settings, program: 'dies at once' };
    await expect(run(batchesOf(['a'], ['b']), { settings: program })).rejects.toThrow(
      'threads end before they judge anything: it ended with code 4',
    );
  });

  it('stop with what is done when they are told to', async () => {
    const results = await run(batchesOf(['a', 'stops', 'b', 'c']), { count: 1 });
    expect(results.map(({ index }) => index)).toEqual([0, 1]);
    const none: Done[] = [];
    const pool = openPool({
      script,
      count: 2,
      settings,
      patience: 60_000,
      done: (done) => none.push(...done),
    });
    pool.stop();
    await pool.run(batchesOf(['a'], ['b']));
    expect(none).toEqual([]);
  });

  it('have nothing to do where there are no files', async () => {
    expect(await run([])).toEqual([]);
  });
});
