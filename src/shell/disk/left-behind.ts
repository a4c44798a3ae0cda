import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { savedAt } from './on-disk.ts';
import { removeFile } from './write-whole.ts';

/** No write takes that long, in milliseconds: what was not touched since then belongs to nobody. */
export const forgottenAfter = 600_000;

/**
 * Clears away what programs that were killed left in a folder: half-written files and second names.
 *
 * @param beside the name of the only file whose leftovers are cleared; those of all where absent
 */
export const clearLeft = (folder: string, beside: string | null = null): void => {
  let names: string[] = [];
  try {
    names = readdirSync(folder);
  } catch {
    return;
  }
  for (const name of names) {
    const of = /^\.(.+)\.[0-9a-f]{8}\.(?:new|part|part\.old)$/u.exec(name)?.[1];
    if (of === undefined || (beside !== null && of !== beside)) continue;
    const path = join(folder, name);
    const saved = savedAt(path);
    if (saved !== null && Date.now() - saved > forgottenAfter) removeFile(path);
  }
};
