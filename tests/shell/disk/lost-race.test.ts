import { writeFileSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { digest } from '../../../src/shell/disk/digest.ts';
import { takeLock } from '../../../src/shell/disk/lock.ts';
import { replaceFile } from '../../../src/shell/disk/replace-file.ts';
import { moveFile } from '../../../src/shell/disk/write-whole.ts';
import { beside, call, job, jobFile, textOf } from '../save/job-file.ts';

/** What happens in the very moment before a file is moved over another; what it throws is what the system says. */
const moment: { before: (() => void) | null; after: (() => void) | null } = { before: null, after: null };

vi.mock('node:fs', async (original) => {
  const real = await original<typeof import('node:fs')>();
  return {
    ...real,
    renameSync: (from: string, to: string) => {
      // Records are moved, too.
      const isJob = to.endsWith('job.yaml');
      const { before } = moment;
      if (isJob) before?.();
      real.renameSync(from, to);
      const { after } = moment;
      if (isJob) after?.();
    },
  };
});

afterEach(() => {
  moment.before = null;
  moment.after = null;
});

const once = (when: 'before' | 'after', act: () => void): void => {
  moment[when] = () => {
    moment[when] = null;
    act();
  };
};

describe('a save in the moment between the last look and the move', () => {
  const [first, second] = [`${job}\nx-more: 1\n`, `${job}\nx-more: 2\n`];

  /** Replaces a file and tells what was lost, and what is left. */
  const replaced = async (file: string) => {
    const lock = await takeLock(file);
    const bytes = new TextEncoder().encode('worksheet: 1\n');
    const lost: string[] = [];
    const outcome = await replaceFile(file, digest(new TextEncoder().encode(job)), bytes, lock, {
      lost: (saved) => lost.push(new TextDecoder().decode(saved)),
    });
    await lock.release();
    expect(await beside(file)).toEqual(['job.yaml']);
    expect((await stat(file)).nlink).toBe(1);
    return { outcome, lost, left: await textOf(file) };
  };

  it('is put back, and the change is to be made anew', async () => {
    const file = await jobFile();
    once('before', () => writeFileSync(file, first));
    expect(await replaced(file)).toEqual({ outcome: 'changed-meanwhile', lost: [], left: first });
  });

  it('is handed out where a still later save stands in its place', async () => {
    const file = await jobFile();
    once('before', () => writeFileSync(file, first));
    once('after', () => writeFileSync(file, second));
    expect(await replaced(file)).toEqual({ outcome: 'changed-meanwhile', lost: [first], left: second });
  });

  it('is put back, and what is saved while that is done is handed out', async () => {
    const file = await jobFile();
    once('before', () => {
      writeFileSync(file, first);
      once('before', () => writeFileSync(file, second));
    });
    expect(await replaced(file)).toEqual({ outcome: 'changed-meanwhile', lost: [second], left: first });
  });

  it('is a version of the file where it stands nowhere else any more, which is said', async () => {
    const file = await jobFile();
    once('before', () => writeFileSync(file, first));
    once('after', () => writeFileSync(file, second));
    const { code, stderr } = await call(file, 'log', 'job.yaml', 'noted', 'vehicle');
    expect(code).toBe(0);
    expect(await textOf(file)).toContain('x-more: 2');
    expect(stderr).toContain('is brought back by: cornerwise undo job.yaml --to 2\n');
    await call(file, 'undo', 'job.yaml', '--to', '2');
    expect(await textOf(file)).toBe(first);
  });
});

describe('a file that another program has open', () => {
  const busy = (times: number): void => {
    let left = times;
    moment.before = () => {
      left -= 1;
      if (left >= 0) throw Object.assign(new Error('busy'), { code: 'EPERM' });
    };
  };

  it('is moved over once it is let go, on a system that wants that', async () => {
    const [from, to] = [await jobFile('new'), await jobFile('old')];
    busy(3);
    moveFile(from, to, 'win32');
    expect(await textOf(to)).toBe('new');
  });

  it.each([
    ['win32', 9],
    ['linux', 1],
  ] as const)('is left alone on %s after %i refusals', async (platform, times) => {
    const [from, to] = [await jobFile('new'), await jobFile('old')];
    busy(times);
    expect(() => moveFile(from, to, platform)).toThrow('busy');
    expect(await textOf(to)).toBe('old');
  });
});
