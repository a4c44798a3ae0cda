import { dirname, join } from 'node:path';
import { digest } from '../disk/digest.ts';
import { clearLeft } from '../disk/left-behind.ts';
import { entriesIfAny, exists, savedAt } from '../disk/on-disk.ts';
import { readPlainText } from '../disk/read-plain.ts';
import { makeFolder, moveFile, removeFile, writeWhole } from '../disk/write-whole.ts';
import type { Io } from '../io.ts';
import { shownPath } from '../shown-path.ts';
import type { History, Version } from './history.ts';

/** Far above what a record of changes comes to. */
const largestRecord = 1 << 26;

/** Records of files that nobody changed for half a year are cleared away. */
const keptFor = 180 * 86_400_000;

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

/** What a record holds beside its hash; a program of another time would write another number. */
interface Kept {
  readonly format: 1;
  /** The file that it tells of. */
  readonly file: string;
  readonly versions: readonly (Omit<Version, 'back'> & {
    readonly back: { readonly at: number; readonly length: number; readonly was: string } | null;
  })[];
  readonly newest: string;
}

const toText = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64');
const toBytes = (text: string): Uint8Array => Buffer.from(text, 'base64');

/** The first line is the hash of the second, so that none can be damaged unnoticed. */
const recordText = (file: string, { versions, newest }: History): string => {
  const kept: Kept = {
    format: 1,
    file,
    versions: versions.map(({ back, ...version }) => ({
      ...version,
      back: back && { ...back, was: toText(back.was) },
    })),
    newest: toText(newest),
  };
  const body = JSON.stringify(kept);
  return `${digest(Buffer.from(body))}\n${body}\n`;
};

/** What stands on record, or null where it is not as it was written. */
const parseRecord = (file: string, text: string): History | null => {
  const [seal, body = '', ...more] = text.split('\n');
  if (seal !== digest(Buffer.from(body)) || more.join('') !== '') return null;
  const kept = JSON.parse(body) as Partial<Kept>;
  if (kept.format !== 1 || kept.file !== file || !kept.versions || kept.newest === undefined) return null;
  return {
    versions: kept.versions.map(({ back, ...version }) => ({
      ...version,
      back: back && { ...back, was: toBytes(back.was) },
    })),
    newest: toBytes(kept.newest),
  };
};

const moveAside = (path: string, file: string, io: Io): void => {
  const aside = path.replace(/\.json$/u, '.damaged.json');
  const damaged = `cornerwise: the record of changes to ${shownPath(file, io.cwd)} is damaged and not used`;
  try {
    moveFile(path, aside);
    io.stderr.write(`${damaged}; it was moved aside to ${aside}\n`);
  } catch {
    io.stderr.write(`${damaged}\n`);
  }
};

/** The kept versions of a file; null where there are none. A damaged record is moved aside, which is said. */
export const readHistory = (file: string, io: Io): History | null => {
  const path = recordPath(file, io);
  if (path === null || !exists(path)) return null;
  try {
    const history = parseRecord(file, readPlainText(path, largestRecord));
    if (history !== null) return history;
  } catch {
    // Whatever lies there is no record.
  }
  moveAside(path, file, io);
  return null;
};

/** Clears away what nobody needs any more, among those records whose names begin as this one's does. */
const clearOld = (path: string, now: number): void => {
  const folder = dirname(path);
  clearLeft(folder);
  const start = path.slice(folder.length + 1).slice(0, 2);
  for (const { name } of entriesIfAny(folder)) {
    if (!name.startsWith(start)) continue;
    const old = join(folder, name);
    if (now - (savedAt(old) ?? now) > keptFor) removeFile(old);
  }
};

/** Keeps the versions of a file. False where they cannot be kept, which harms nothing but `undo`. */
export const keepHistory = (file: string, history: History, io: Io): boolean => {
  const path = recordPath(file, io);
  if (path === null) return false;
  try {
    makeFolder(dirname(path));
    if (!exists(path)) clearOld(path, io.now());
    writeWhole(path, [recordText(file, history)], { mode: 0o600 });
    return true;
  } catch {
    return false;
  }
};
