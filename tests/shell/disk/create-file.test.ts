import { readlink, symlink, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { createFile } from '../../../src/shell/disk/create-file.ts';
import { beside, freshFolder, jobFile, textOf } from '../save/job-file.ts';

/** What a disk says to a link; null is a disk that can make them. */
const disk: { fault: string | null } = { fault: null };

vi.mock('node:fs/promises', async (original) => {
  const real = await original<typeof import('node:fs/promises')>();
  return {
    ...real,
    link: (from: string, to: string) =>
      disk.fault
        ? Promise.reject(Object.assign(new Error(disk.fault), { code: disk.fault }))
        : real.link(from, to),
  };
});

afterEach(() => {
  disk.fault = null;
});

describe.each([null, 'EPERM', 'ENOTSUP', 'ENOSYS'])(
  'a new file, on a disk that says %s to links',
  (fault) => {
    it('holds the text, and nothing lies beside it', async () => {
      const file = join(await freshFolder(), 'new.yaml');
      disk.fault = fault;
      expect(await createFile(file, 'worksheet: 1\n')).toBe(true);
      expect(await textOf(file)).toBe('worksheet: 1\n');
      expect(await beside(file)).toEqual(['new.yaml']);
    });

    it('never takes the place of another', async () => {
      const file = await jobFile('kept');
      disk.fault = fault;
      expect(await createFile(file, 'worksheet: 1\n')).toBe(false);
      expect(await textOf(file)).toBe('kept');
      expect(await beside(file)).toEqual(['job.yaml']);
    });

    it('is not written where a link points to nothing', async () => {
      const file = join(await freshFolder(), 'new.yaml');
      await symlink('nowhere.yaml', file);
      disk.fault = fault;
      expect(await createFile(file, 'worksheet: 1\n')).toBe(false);
      expect(await readlink(file)).toBe('nowhere.yaml');
      expect(await beside(file)).toEqual(['new.yaml']);
    });

    it('is made by one where several want it', async () => {
      const file = join(await freshFolder(), 'new.yaml');
      disk.fault = fault;
      const texts = Array.from({ length: 8 }, (_, index) => `worksheet: ${index}\n`);
      const made = await Promise.all(texts.map((text) => createFile(file, text)));
      expect(made.filter(Boolean)).toHaveLength(1);
      expect(await textOf(file)).toBe(texts[made.indexOf(true)]);
      expect(await beside(file)).toEqual(['new.yaml']);
    });
  },
);

describe('a new file', () => {
  it('is not held up by what a process of the same number left when it died', async () => {
    const file = join(await freshFolder(), 'new.yaml');
    await writeFile(join(dirname(file), `.new.yaml.${process.pid}.part`), 'work');
    expect(await createFile(file, 'worksheet: 1\n')).toBe(true);
  });

  it('cannot be made in a folder that is not there', async () => {
    const file = join(await freshFolder(), 'gone', 'new.yaml');
    await expect(createFile(file, '')).rejects.toMatchObject({ code: 'ENOENT' });
  });

  it('that cannot be made for another reason leaves nothing', async () => {
    const file = join(await freshFolder(), 'new.yaml');
    disk.fault = 'EIO';
    await expect(createFile(file, '')).rejects.toMatchObject({ code: 'EIO' });
    expect(await beside(file)).toEqual([]);
  });
});
