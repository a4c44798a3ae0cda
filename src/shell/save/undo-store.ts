import { dirname, join } from 'node:path';
import type { Stretch } from '../../input/edit/insertion.ts';
import { digest } from '../disk/digest.ts';
import { readPlainText } from '../disk/read-plain.ts';
import { makeFolder, removeFile, writeWhole } from '../disk/write-whole.ts';
import type { Io } from '../io.ts';

/** A change that these commands made to a file: enough to take it back, and to know whether that is still right. */
export interface Made {
  /** What it was, for people. */
  readonly what: string;
  /** When, as ISO 8601 in UTC. */
  readonly at: string;
  /** SHA-256 of the file before and after. */
  readonly before: string;
  readonly after: string;
  /** What was put in, in the text as it was afterwards, with what it took the place of. */
  readonly stretches: readonly Stretch[];
}

/** Far above what a record of changes comes to. */
const largestRecord = 1 << 26;

/** Older changes than this many are not worth keeping. */
const most = 200;

/** The folder of the user's own where programs keep such things; null where the surroundings name none. */
const stateFolder = ({ env }: Io): string | null => {
  const xdg = env.XDG_STATE_HOME;
  if (xdg) return join(xdg, 'cornerwise');
  if (env.LOCALAPPDATA) return join(env.LOCALAPPDATA, 'cornerwise');
  const home = env.HOME ?? env.USERPROFILE;
  return home ? join(home, '.local', 'state', 'cornerwise') : null;
};

const recordPath = (file: string, io: Io): string | null => {
  const folder = stateFolder(io);
  const name = digest(new TextEncoder().encode(file)).slice(0, 32);
  return folder && join(folder, 'undo', `${name}.json`);
};

const isMade = (value: unknown): value is Made => {
  const one = value as Partial<Made> | null;
  return (
    typeof one?.what === 'string' &&
    typeof one.before === 'string' &&
    typeof one.after === 'string' &&
    Array.isArray(one.stretches) &&
    one.stretches.every(
      ({ at, length, was }) =>
        Number.isInteger(at) && Number.isInteger(length) && (was === undefined || typeof was === 'string'),
    )
  );
};

/** The changes made to a file, the last one last; none where nothing is on record or the record cannot be read. */
export const changesMade = async (file: string, io: Io): Promise<readonly Made[]> => {
  const path = recordPath(file, io);
  if (path === null) return [];
  try {
    const value: unknown = JSON.parse(readPlainText(path, largestRecord));
    return Array.isArray(value) ? value.filter(isMade) : [];
  } catch {
    return [];
  }
};

/**
 * Keeps the changes made to a file. Only the last run of changes that lead one to the next is worth keeping. False
 * where they cannot be kept, which harms nothing but `undo`.
 */
export const keepChanges = async (file: string, made: readonly Made[], io: Io): Promise<boolean> => {
  const path = recordPath(file, io);
  if (path === null) return false;
  try {
    if (made.length === 0) return removeFile(path);
    makeFolder(dirname(path));
    writeWhole(path, [JSON.stringify(made.slice(-most))], { mode: 0o600 });
    return true;
  } catch {
    return false;
  }
};

/**
 * The record as it stands for a file of this hash. A change goes on record before it is made and comes off after it was
 * taken back, so that whoever is killed in between leaves one that is not in the file.
 */
export const settled = (made: readonly Made[], now: string): readonly Made[] => {
  const last = made.at(-1);
  return last && last.before === now && last.after !== now ? settled(made.slice(0, -1), now) : made;
};

/** The record with one more change: what came before an edit by other hands cannot be taken back any more. */
export const withChange = (made: readonly Made[], next: Made): Made[] =>
  made.at(-1)?.after === next.before ? [...made, next] : [next];
