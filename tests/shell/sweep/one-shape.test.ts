import { readFile } from 'node:fs/promises';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/core/job.ts';
import { libraryCache } from '../../../src/shell/library-cache.ts';
import { readJobText } from '../../../src/shell/read-job-text.ts';
import { shopFor } from '../../../src/shell/shop-file.ts';

// With it the engine can be asked.
setFlagsFromString('--allow-natives-syntax');
const haveOneShape: (a: object, b: object) => boolean = runInNewContext('(a, b) => %HaveSameMap(a, b)');

const folder = new URL('../../../examples/', import.meta.url).pathname;
const io = { readFile: async (path: string) => readFile(path) } as never;

/** A job of the examples as it is read. */
const read = async (name: string): Promise<Job> => {
  const found = await shopFor(`${folder}${name}`, io);
  const library = libraryCache()([new URL('../../../rules', import.meta.url).pathname]);
  const { job } = await readJobText(await readFile(`${folder}${name}`, 'utf8'), found, library);
  if (job === null) throw new Error(`${name} cannot be read`);
  return job;
};

const allAlike = (objects: readonly object[]): boolean => {
  const [first, ...others] = objects;
  return first !== undefined && others.length > 0 && others.every((one) => haveOneShape(first, one));
};

/*
 * In V8 what is spread into a new object and then given one more property has a hidden class of its own, once it was
 * done a few times. Whoever reads many such objects is slow for it, so that what there is much of is made in one piece.
 */
const times = 20;

describe('of many jobs', () => {
  it('the engine can tell what was made in pieces', () => {
    const made = (id: number) => ({ id, state: 'rest', more: 1 });
    const spread = (id: number) => {
      const base = { id, state: 'rest' };
      return { ...base, more: 1 };
    };
    const of = (make: (id: number) => object) => Array.from({ length: times }, (_, id) => make(id));
    expect(allAlike(of(made))).toBe(true);
    expect(allAlike(of(spread))).toBe(false);
  });

  it('jobs, snapshots and readings have one shape each', async () => {
    const jobs: Job[] = [];
    for (let count = 0; count < times; count += 1) jobs.push(await read('shuttle-07-left-rear-low.yaml'));
    const snapshots = jobs.flatMap((job) => job.snapshots);
    const readings = snapshots
      .flatMap((snapshot) => [...snapshot.readings.values()])
      .filter(({ kind }) => kind === 'values');
    expect(allAlike(jobs)).toBe(true);
    expect(allAlike(snapshots)).toBe(true);
    expect(allAlike(readings)).toBe(true);
  });
});
