import { writeFileSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { digest } from '../../../src/shell/disk/digest.ts';
import { takeLock } from '../../../src/shell/disk/lock.ts';
import { replaceFile } from '../../../src/shell/disk/replace-file.ts';
import { moveFile } from '../../../src/shell/disk/write-whole.ts';
import { beside, job, jobFile, textOf } from '../save/job-file.ts';

/** What happens in the very moment before a file is moved over another; what it throws is what the system says. */
const moment: { before: (() => void) | null } = { before: null };

vi.mock('node:fs', async (original) => {
  const real = await original<typeof import('node:fs')>();
  return {
    ...real,
    renameSync: (from: string, to: string) => {
      const { before } = moment;
      before?.();
      real.renameSync(from, to);
    },
  };
});

afterEach(() => {
  moment.before = null;
});

describe('a save in the moment between the last look and the move', () => {
  it('is put back, and the change is made anew', async () => {
    const file = await jobFile();
    const saved = `${job}\nx-more: 1\n`;
    moment.before = () => {
      moment.before = null;
      writeFileSync(file, saved);
    };
    const lock = await takeLock(file);
    const bytes = new TextEncoder().encode('worksheet: 1\n');
    expect(await replaceFile(file, digest(new TextEncoder().encode(job)), bytes, lock)).toBe(
      'changed-meanwhile',
    );
    await lock.release();
    expect(await textOf(file)).toBe(saved);
    expect(await beside(file)).toEqual(['job.yaml']);
    expect((await stat(file)).nlink).toBe(1);
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
