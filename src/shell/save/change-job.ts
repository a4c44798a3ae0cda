import { resolve } from 'node:path';
import { type Change, insertionsFor } from '../../input/edit/change.ts';
import { insert } from '../../input/edit/insertion.ts';
import { text as textValue } from '../../input/edit/value.ts';
import { saysAsIntended } from '../../input/edit/verify.ts';
import type { Shop } from '../../input/job/shop.ts';
import type { Problem } from '../../input/problem.ts';
import { writtenTime } from '../../input/typed/typed-time.ts';
import { clean } from '../../report/clean.ts';
import type { Fault } from '../../report/words/fault-words.ts';
import type { AsOf } from '../as-of.ts';
import { Held, type Holder, type Lock, takeLock, usualLock } from '../disk/lock.ts';
import { NotPlain, TooLarge } from '../disk/read-plain.ts';
import { isStdin } from '../disk/read-stdin.ts';
import { writablePath } from '../disk/writable-path.ts';
import type { Io } from '../io.ts';
import type { Library } from '../library.ts';
import { type OpenJob, openJobFile } from '../open-job.ts';
import { readFailure } from '../read-failure.ts';
import { readJobText } from '../read-job-text.ts';
import { historyOf, putOnRecord } from './on-record.ts';

/** What a command wants done to a job, or why it cannot be. */
export type Plan =
  | { readonly change: Change; readonly what: string }
  | { readonly troubles: readonly Fault[] };

/** What became of a change; in all cases but the first the file is as it was. */
export type Outcome =
  | {
      readonly kind: 'changed';
      readonly before: OpenJob;
      readonly after: OpenJob;
      /** SHA-256 of the file as it is now. */
      readonly digest: string;
      /** False where the change could not be put on record, so that `undo` will not know of it. */
      readonly onRecord: boolean;
    }
  | { readonly kind: 'problems'; readonly problems: readonly Problem[]; readonly shop: Shop | null }
  | {
      readonly kind: 'trouble';
      readonly troubles: readonly Fault[];
      /** True where a write failed that should not have. */
      readonly isFault?: boolean;
    };

/** How files are found and read for a command. */
export interface Reading {
  readonly rules: readonly string[];
  readonly io: Io;
  readonly libraries: (folders: readonly string[]) => Library;
  /** What counts as now; the clock where it is null. */
  readonly asOf: AsOf | null;
  /** The file as somebody has read it already: it is not read anew where its bytes are still the same. */
  readonly known?: OpenJob | null;
}

/** The same, for a command that changes one. */
export interface Changing extends Reading {
  /** The command that the change is put on record under. */
  readonly by: string;
}

export const trouble = (
  message: string,
  hint: string | null = null,
  isFault = false,
): Outcome & { kind: 'trouble' } => ({ kind: 'trouble', troubles: [{ message, hint }], isFault });

/** Times that a change is made anew because another program wrote to the file in between. */
const mostTries = 5;

const byteOrderMark = '\ufeff';

/** The bytes of a text, with a byte order mark where the file has one. */
export const encode = (text: string, like: Uint8Array): Uint8Array => {
  const marked = like[0] === 0xef && like[1] === 0xbb && like[2] === 0xbf;
  return new TextEncoder().encode(marked ? byteOrderMark + text : text);
};

const writerName = (holder: Holder | null): string =>
  holder === null
    ? 'a program that did not say who it is'
    : `process ${holder.pid} on ${holder.host} since ${holder.at}`;

/** Takes the lock of a file, and says at once whom it waits for. */
export const lockFor = (file: string, path: string, io: Io): Promise<Lock> =>
  takeLock(path, {
    ...usualLock,
    onWait: (holder) =>
      io.stderr.write(
        `cornerwise: ${clean(file)} is being written by ${clean(writerName(holder))}; waiting\n`,
      ),
  });

/** What a fault of the file system means for a change, in words. */
export const writeTrouble = (error: unknown, file: string): Outcome => {
  if (error instanceof Held) {
    const message = `${file} is being written by ${writerName(error.holder)}; nothing was written`;
    return trouble(message, `try again; if no such program runs any more, remove ${error.path}`);
  }
  if (error instanceof NotPlain || error instanceof TooLarge)
    return { kind: 'problems', problems: [readFailure(error, file)], shop: null };
  const { code = '' } = error as NodeJS.ErrnoException;
  switch (code) {
    case 'ENOENT':
    case 'ENOTDIR':
      return trouble(`there is no such file: ${file}`, `cornerwise new ${file} begins one`);
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return trouble(`${file} or its folder may not be written to`, 'ask for the right to write there');
    case 'ENOSPC':
    case 'EDQUOT':
      return trouble(
        `there is no room left where ${file} lies; it is as it was`,
        'make room and try again',
        true,
      );
    default:
      // The system's own codes are no fault of the program; Node's begin with ERR_.
      if (/^E[A-Z0-9]+$/u.test(code)) {
        return trouble(`the system does not let ${file} be written (${code}); it is as it was`, null, true);
      }
      throw error;
  }
};

const unsafe = (what: string): Outcome =>
  trouble(
    `this file is laid out in a way that ${what} cannot be added to without changing what else it says`,
    'add it in an editor; nothing was written',
  );

/**
 * A change, and with it the time at which a job was opened that went by when its file was saved: from now on the file
 * is saved at another time.
 */
const withOpening = (change: Change, { read }: OpenJob): Change => {
  const { job, warnings } = read;
  const rests = warnings.some(
    (one) => one.kind === 'assumed' && one.what.some((what) => what.of === 'opened' && what.from === 'saved'),
  );
  if (job === null || !rests) return change;
  const opened = textValue(writtenTime(job.opened, job.zone, true).text);
  return { kind: 'several', changes: [{ kind: 'put', at: ['opened'], value: opened }, change] };
};

/** One try: null where another program wrote to the file in between. */
const attempt = async (
  file: string,
  path: string,
  plan: (opened: OpenJob) => Plan | Promise<Plan>,
  { rules, io, libraries, asOf, known, by }: Changing,
): Promise<Outcome | null> => {
  const lock = await lockFor(file, path, io);
  try {
    const opened = await openJobFile(file, rules, io, libraries, asOf, known);
    if ('problems' in opened) return { kind: 'problems', ...opened };
    const { read, text, found } = opened;
    if (read.problems.length > 0 || read.root === null) {
      return { kind: 'problems', problems: read.problems, shop: found.shop };
    }
    const planned = await plan(opened);
    if ('troubles' in planned) return { kind: 'trouble', troubles: planned.troubles };
    const { what } = planned;
    const change = withOpening(planned.change, opened);
    const insertions = insertionsFor(text, read.root, change);
    if (insertions === null) return unsafe(what);
    const newText = insert(text, insertions);
    const after = await readJobText(newText, found, opened.library, opened.source);
    if (after.root === null || !saysAsIntended(read.root, change, after.root)) return unsafe(what);
    if (after.problems.length > 0) {
      // They stand in a text that nobody has seen, so that only their words help.
      return {
        kind: 'trouble',
        troubles: after.problems.map(({ message, hint }) => ({ message, hint })),
      };
    }
    const bytes = encode(newText, opened.bytes);
    const history = historyOf(path, opened.bytes, io);
    const stored = await putOnRecord(path, history, bytes, { by, what, as: null }, lock, io);
    return (
      stored && {
        kind: 'changed',
        before: opened,
        after: { ...opened, bytes, text: newText, read: after },
        ...stored,
      }
    );
  } finally {
    await lock.release();
  }
};

/**
 * Changes a job file: reads it, asks `plan` what to put where, checks that the file would say that and nothing else
 * has become different, and replaces it whole. Where another program wrote to the file in between, all of it is done
 * anew with what that program wrote.
 */
export const changeJob = async (
  file: string,
  plan: (opened: OpenJob) => Plan | Promise<Plan>,
  reading: Changing,
): Promise<Outcome> => {
  if (isStdin(file)) {
    return trouble('a job on standard input cannot be written back', 'name the file that is to be changed');
  }
  try {
    const path = await writablePath(resolve(reading.io.cwd, file));
    for (let tries = 0; tries < mostTries; tries += 1) {
      const outcome = await attempt(file, path, plan, reading);
      if (outcome !== null) return outcome;
    }
    return trouble(
      `${file} was changed by another program again and again; nothing was written`,
      'try again',
    );
  } catch (error) {
    return writeTrouble(error, file);
  }
};
