import { access, constants, realpath } from 'node:fs/promises';

/**
 * The file that a path leads to, links followed.
 *
 * @throws what the system says where there is none or it may not be written to
 */
export const writablePath = async (path: string): Promise<string> => {
  const file = await realpath(path);
  await access(file, constants.W_OK);
  return file;
};
