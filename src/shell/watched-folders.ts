import { basename, dirname } from 'node:path';
import { exists } from './disk/on-disk.ts';
import type { WatchTools } from './disk/watch-tools.ts';

/** What matters in each folder: some of its entries by name, or all of them. */
export type Wanted = ReadonlyMap<string, ReadonlySet<string> | 'all'>;

/** Watchers of folders, opened as they are wanted and closed together. */
export interface WatchedFolders {
  /** Opens what is wanted and not open yet; whether there was any. */
  readonly open: (wanted: Wanted) => Promise<boolean>;
  /** Whether anything is watched at all. */
  readonly any: () => boolean;
  readonly close: () => void;
}

/** For a folder that is not there, the nearest one above that is, and the entry of it that would lead there. */
const standIn = async (folder: string): Promise<{ readonly folder: string; readonly name: string }> => {
  const above = dirname(folder);
  return above === folder || exists(above) ? { folder: above, name: basename(folder) } : standIn(above);
};

/**
 * Folders are watched rather than files, since editors save by putting a new file in the old one's place. A folder
 * once watched stays so: what held for a job a moment ago may come back.
 */
export const watchFolders = (
  { openFolder }: WatchTools,
  changed: () => void,
  refused: (folder: string, error: unknown) => void,
): WatchedFolders => {
  const ends = new Map<string, () => void>();
  const names = new Map<string, Set<string> | 'all'>();
  const refusals = new Set<string>();

  const want = (folder: string, entries: ReadonlySet<string> | 'all'): void => {
    const before = names.get(folder);
    if (before === 'all' || entries === 'all') names.set(folder, 'all');
    else names.set(folder, new Set([...(before ?? []), ...entries]));
  };
  const end = (folder: string): void => {
    ends.get(folder)?.();
    ends.delete(folder);
  };
  const heard = (folder: string, name: string | null): void => {
    const wanted = names.get(folder);
    // A folder that is moved or removed is told under its own name; whatever comes in its place is another folder.
    const itself = name === null || name === basename(folder);
    if (itself) end(folder);
    if (itself || wanted === 'all' || wanted?.has(name)) changed();
  };
  const openOne = (folder: string): boolean => {
    if (ends.has(folder) || refusals.has(folder)) return false;
    try {
      ends.set(
        folder,
        openFolder(folder, (name) => heard(folder, name)),
      );
      return true;
    } catch (error) {
      refusals.add(folder);
      refused(folder, error);
      return false;
    }
  };

  return {
    open: async (wanted) => {
      for (const [folder, entries] of wanted) want(folder, entries);
      let opened = false;
      for (const folder of [...names.keys()]) {
        if (exists(folder)) {
          opened = openOne(folder) || opened;
          continue;
        }
        end(folder);
        const above = await standIn(folder);
        want(above.folder, new Set([above.name]));
        opened = openOne(above.folder) || opened;
      }
      return opened;
    },
    any: () => ends.size > 0,
    close: () => {
      for (const folder of [...ends.keys()]) end(folder);
    },
  };
};
