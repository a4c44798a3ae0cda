import { basename, dirname, join, resolve } from 'node:path';
import { createFile } from '../disk/create-file.ts';
import { behindLinks, exists } from '../disk/on-disk.ts';
import { readPlain } from '../disk/read-plain.ts';
import { isStdin } from '../disk/read-stdin.ts';
import { writablePath } from '../disk/writable-path.ts';
import type { Io } from '../io.ts';
import { lockFor, type Outcome, trouble, writeTrouble } from './change-job.ts';
import {
  bytesOf,
  type Cause,
  changeBefore,
  type History,
  linesChanged,
  stepsBack,
  unrolled,
  type Version,
} from './history.ts';
import { historyOf, putOnRecord } from './on-record.ts';
import { readHistory } from './undo-store.ts';

type Refused = Exclude<Outcome, { kind: 'changed' }>;

export type TakenBack =
  | { readonly kind: 'taken-back'; readonly what: string; readonly left: number }
  | Refused;

export type BroughtBack =
  | {
      readonly kind: 'brought-back';
      readonly version: Version;
      /** The version that the file was before; null where it was gone. */
      readonly before: Version | null;
      /** False where the file was that version already, so that nothing was written. */
      readonly isNew: boolean;
    }
  | Refused;

/** A kept version and how it differs from the one before it; null for the oldest. */
export interface Listed extends Version {
  readonly lines: readonly [added: number, removed: number] | null;
}

const lastOf = ({ versions }: History): Version | undefined => versions.at(-1);

/** Does something to a file under its lock, with its history up to now. */
const locked = async <Done>(
  file: string,
  io: Io,
  act: (history: History, put: Put) => Promise<Done | Refused>,
): Promise<Done | Refused> => {
  const path = await writablePath(resolve(io.cwd, file));
  const lock = await lockFor(file, path, io);
  try {
    const history = historyOf(path, readPlain(path), io);
    return await act(history, async (version, cause) => {
      const bytes = bytesOf(history, version.number);
      if (bytes === null) return notKept(file, version.number, history);
      const done = await putOnRecord(path, history, bytes, { ...cause, by: 'undo' }, lock, io);
      return done === null
        ? trouble(`${file} is being changed by another program; nothing was written`, 'try again')
        : null;
    });
  } finally {
    await lock.release();
  }
};

type Put = (version: Version, cause: Pick<Cause, 'what' | 'as'>) => Promise<Refused | null>;

const notKept = (file: string, number: number, { versions }: History): Refused =>
  versions.length < 2
    ? nothingToTakeBack(file)
    : trouble(
        `version ${number} of ${file} is not kept`,
        `kept are ${versions[0]?.number} to ${versions.at(-1)?.number}; cornerwise undo ${file} --list shows them`,
      );

const nothingToTakeBack = (file: string): Refused =>
  trouble(
    `nothing is on record that could be taken back in ${file}`,
    'only what add, fill, log, fix, waive and packs upgrade wrote, by this user on this machine, is',
  );

const noStdin = (): Refused => trouble('standard input cannot be changed', 'name the file');

/**
 * Takes back the last change that these commands made to a file, if nobody has changed it since.
 *
 * @param only the SHA-256 that the change to be taken back left behind; null for whatever was last
 */
export const takeBack = async (file: string, io: Io, only: string | null = null): Promise<TakenBack> => {
  if (isStdin(file)) return noStdin();
  try {
    return await locked(file, io, async (history, put) => {
      const [last, ...more] = stepsBack(history);
      const now = lastOf(history);
      if (only !== null && now?.sha256 !== only)
        return trouble(`${file} was changed by somebody else since; nothing was taken back`);
      if (last === undefined) return notTakenBack(file, history);
      const { change, to } = last;
      const refused = await put(to, { what: `took back ${change.what}`, as: to.number });
      return refused ?? { kind: 'taken-back', what: change.what, left: more.length };
    });
  } catch (error) {
    return writeTrouble(error, file) as Refused;
  }
};

/** Why the last change cannot be taken back: there is none, or other hands came in between. */
const notTakenBack = (file: string, history: History): Refused => {
  const change = changeBefore(history);
  return change === null
    ? nothingToTakeBack(file)
    : trouble(
        `${file} has changed since the last change on record (${change.what}); nothing was taken back`,
        `cornerwise undo ${file} --list shows the versions that can be brought back`,
      );
};

/**
 * Makes a file one of its kept versions again. What it is now becomes a version first, whoever wrote it, so that nothing
 * is lost; a file that is gone is made again.
 */
export const bringBack = async (file: string, number: number, io: Io): Promise<BroughtBack> => {
  if (isStdin(file)) return noStdin();
  try {
    const gone = await bringBackGone(file, number, io);
    if (gone !== null) return gone;
    return await locked<BroughtBack>(file, io, async (history, put) => {
      const version = history.versions.find((one) => one.number === number);
      if (version === undefined) return notKept(file, number, history);
      const before = lastOf(history) ?? null;
      const isNew = before?.sha256 !== version.sha256;
      const refused = isNew ? await put(version, { what: `return to version ${number}`, as: null }) : null;
      return refused ?? { kind: 'brought-back', version, before, isNew };
    });
  } catch (error) {
    return writeTrouble(error, file) as Refused;
  }
};

/** The version of a file that is gone, made again; null where it is not gone, or not on record. */
const bringBackGone = async (file: string, number: number, io: Io): Promise<BroughtBack | null> => {
  const path = placeOf(file, io);
  const history = exists(path) ? null : readHistory(path, io);
  if (history === null) return null;
  const version = history.versions.find((one) => one.number === number);
  const bytes = bytesOf(history, number);
  if (version === undefined || bytes === null) return notKept(file, number, history);
  if (!(await createFile(path, bytes))) return null;
  return { kind: 'brought-back', version, before: null, isNew: true };
};

/** Where a file lies or lay, links followed. */
const placeOf = (file: string, io: Io): string => {
  const path = resolve(io.cwd, file);
  const real = behindLinks(path);
  return real === path ? join(behindLinks(dirname(path)), basename(path)) : real;
};

export interface Kept {
  readonly kind: 'kept';
  /** The newest first. */
  readonly versions: readonly Listed[];
  readonly isGone: boolean;
}

/** The kept versions of a file, up to what it is now. */
export const listVersions = (file: string, io: Io): Kept | Refused => {
  if (isStdin(file)) return noStdin();
  try {
    const path = placeOf(file, io);
    const isGone = !exists(path);
    const known = readHistory(path, io);
    if (known === null) {
      return isGone ? (writeTrouble({ code: 'ENOENT' }, file) as Refused) : nothingToTakeBack(file);
    }
    const history = isGone ? known : historyOf(path, readPlain(path), io);
    const versions = [...unrolled(history)].map(({ version, bytes }) => ({
      ...version,
      lines: version.back && linesChanged(bytes, version.back),
    }));
    return { kind: 'kept', versions, isGone };
  } catch (error) {
    return writeTrouble(error, file) as Refused;
  }
};
