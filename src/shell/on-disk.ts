import { access, stat } from 'node:fs/promises';

/** Whether anything lies at a path that can be reached. */
export const exists = (path: string): Promise<boolean> =>
  access(path).then(
    () => true,
    () => false,
  );

/** Whether a path is a folder that can be looked into. */
export const isFolder = (path: string): Promise<boolean> =>
  stat(path).then(
    (found) => found.isDirectory(),
    () => false,
  );
