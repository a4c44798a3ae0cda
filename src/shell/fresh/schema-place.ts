import { dirname, join, relative, sep } from 'node:path';
import { exists } from '../disk/on-disk.ts';
import { shippedSchemas } from '../package-folder.ts';

/** The name under which a shop keeps the schema beside its jobs. */
const ownName = 'job.schema.json';

/**
 * Where an editor finds the schema of job files, for the first line of one: the copy that the shop keeps at or above
 * the folder, by its relative path, else the one of this program.
 */
export const schemaPlace = async (folder: string, from = folder): Promise<string> => {
  const own = join(folder, ownName);
  if (exists(own)) {
    const path = relative(from, own).split(sep).join('/');
    return path.startsWith('.') ? path : `./${path}`;
  }
  const above = dirname(folder);
  return above === folder ? join(shippedSchemas(), 'job.json') : schemaPlace(above, from);
};
