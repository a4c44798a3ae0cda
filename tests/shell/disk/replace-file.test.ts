import {
  chmod,
  chown,
  link,
  readFile,
  readlink,
  rename,
  stat,
  symlink,
  unlink,
  writeFile,
} from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { digest } from '../../../src/shell/disk/digest.ts';
import { type Lock, takeLock } from '../../../src/shell/disk/lock.ts';
import { replaceFile } from '../../../src/shell/disk/replace-file.ts';
import { beside, call, job, jobFile, plantLock, textOf } from '../save/job-file.ts';

const bytes = new TextEncoder().encode('worksheet: 2\n');

/** Replaces a file, after something else may have happened since it was read. */
const replace = async (file: string, meanwhile?: (lock: Lock) => Promise<unknown>): Promise<unknown> => {
  const before = digest(await readFile(file));
  const lock = await takeLock(file);
  try {
    await meanwhile?.(lock);
    return await replaceFile(file, before, bytes, lock);
  } finally {
    await lock.release();
  }
};

describe('a file that is replaced', () => {
  it('has the new bytes, and nothing is left beside it', async () => {
    const file = await jobFile();
    expect(await replace(file)).toBeNull();
    expect(await readFile(file)).toEqual(Buffer.from(bytes));
    expect(await beside(file)).toEqual(['job.yaml']);
  });

  it.each([0o600, 0o640, 0o644, 0o664, 0o755, 0o4711])('keeps its mode %o', async (mode) => {
    const file = await jobFile();
    await chmod(file, mode);
    await replace(file);
    expect((await stat(file)).mode & 0o7777).toBe(mode);
  });

  it('keeps its owner and its group', async () => {
    const file = await jobFile();
    const { uid, gid } = await stat(file);
    // Only the superuser can give a file to others.
    const wanted = process.getuid?.() === 0 ? { uid: 1234, gid: 4321 } : { uid, gid };
    await chown(file, wanted.uid, wanted.gid);
    await chmod(file, 0o640);
    await replace(file);
    const { uid: owner, gid: group, mode } = await stat(file);
    expect({ uid: owner, gid: group, mode: mode & 0o7777 }).toEqual({ ...wanted, mode: 0o640 });
  });

  it('is another file, not the same one written over: who has it open goes on with the old', async () => {
    const file = await jobFile();
    const { ino } = await stat(file);
    await replace(file);
    expect((await stat(file)).ino).not.toBe(ino);
  });
});

describe('a file that changed since it was read', () => {
  it.each([
    ['written over', (file: string) => writeFile(file, `${job}\nx-more: 1\n`)],
    [
      'replaced',
      async (file: string) => {
        await writeFile(`${file}~`, `${job}\nx-more: 1\n`);
        await rename(`${file}~`, file);
      },
    ],
  ])('%s by an editor is left as the editor wrote it', async (_, edit) => {
    const file = await jobFile();
    expect(await replace(file, () => edit(file))).toBe('changed-meanwhile');
    expect(await textOf(file)).toBe(`${job}\nx-more: 1\n`);
    expect(await beside(file)).toEqual(['job.yaml']);
  });

  it('is not made anew where it was removed', async () => {
    const file = await jobFile();
    await expect(replace(file, () => unlink(file))).rejects.toMatchObject({ code: 'ENOENT' });
    expect(await beside(file)).toEqual([]);
  });

  it('is not replaced by a writer whose lock was given to another', async () => {
    const file = await jobFile();
    expect(await replace(file, () => plantLock(file))).toBe('lock-lost');
    expect(await textOf(file)).toBe(job);
    expect(await beside(file)).toEqual(['.job.yaml.lock', 'job.yaml']);
  });

  it('is not replaced by a writer whose lock was removed', async () => {
    const file = await jobFile();
    expect(await replace(file, () => unlink(join(dirname(file), '.job.yaml.lock')))).toBe('lock-lost');
    expect(await textOf(file)).toBe(job);
  });
});

describe('a file with another name on the disk', () => {
  it('is changed under the name that was given, which is said', async () => {
    const file = await jobFile();
    const other = join(dirname(file), 'other.yaml');
    await link(file, other);
    const { code, stderr } = await call(file, 'add', 'job.yaml', 'rest', 'supply=12.2');
    expect(code).toBe(0);
    expect(stderr).toBe(
      'cornerwise: job.yaml had another name on the disk, which still leads to the text before\n',
    );
    expect(await textOf(other)).toBe(job);
    expect((await call(file, 'add', 'job.yaml', 'rest', 'supply=12.3')).stderr).toBe('');
  });
});

describe('a symbolic link', () => {
  it('stays one, and what it points to is changed', async () => {
    const file = await jobFile();
    const away = await jobFile();
    const link = join(dirname(away), 'link.yaml');
    await symlink(file, link);
    const { code } = await call(away, 'add', 'link.yaml', 'rest', 'supply=12.2');
    expect(code).toBe(0);
    expect(await readlink(link)).toBe(file);
    expect(await textOf(file)).toContain('supply: 12.2');
    expect(await beside(file)).toEqual(['job.yaml']);
    expect(await beside(away)).toEqual(['job.yaml', 'link.yaml']);
    // By whatever name it is called, it is the same file.
    expect((await call(away, 'undo', file)).code).toBe(0);
    expect(await textOf(file)).toBe(job);
  });
});
