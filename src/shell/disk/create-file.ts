import { randomUUID } from 'node:crypto';
import { link, open, unlink } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

/**
 * Writes a file that must not be there yet: it appears whole or not at all, and never in the place of another. False
 * where there is one.
 */
export const createFile = async (file: string, text: string | Uint8Array): Promise<boolean> => {
  const part = join(dirname(file), `.${basename(file)}.${randomUUID().slice(0, 8)}.part`);
  const handle = await open(part, 'wx');
  try {
    try {
      await handle.writeFile(text);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await link(part, file);
    return true;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST') return false;
    // A disk that knows no links: the name is taken first, and the text follows.
    if (code !== 'EPERM' && code !== 'ENOTSUP' && code !== 'ENOSYS') throw error;
    return await createPlain(file, text);
  } finally {
    await unlink(part).catch(() => undefined);
  }
};

const createPlain = async (file: string, text: string | Uint8Array): Promise<boolean> => {
  try {
    const handle = await open(file, 'wx');
    try {
      await handle.writeFile(text);
      await handle.sync();
    } catch (error) {
      await unlink(file).catch(() => undefined);
      throw error;
    } finally {
      await handle.close();
    }
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
};
