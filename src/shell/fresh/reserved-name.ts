import { basename } from 'node:path';

/**
 * The device that Windows takes a file name for, whatever follows a point: `con.yaml` is the console. Null for any other
 * name. A job in a shared folder must be readable from every machine, so this holds everywhere.
 */
export const reservedName = (path: string): string | null =>
  /^(con|prn|aux|nul|com[\d¹²³]|lpt[\d¹²³]) *(?:\.|$)/iu.exec(basename(path))?.[1] ?? null;
