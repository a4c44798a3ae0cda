import { randomUUID } from 'node:crypto';
import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Standing } from '../../core/sweep/row.ts';
import type { Span } from '../../core/sweep/steady.ts';
import type { Io } from '../io.ts';
import { nameHash } from './hash.ts';

/** What was made of some bytes under some surroundings, and from when until when the clock leaves it so. */
export interface Entry extends Span {
  /** The standing as JSON; empty for a closed job that nobody asked for. */
  readonly json: string;
  readonly status: Standing['status'];
  readonly zone: string;
}

/**
 * Results of earlier sweeps, in files by the name of the job file, so that only a part is in memory at a time. A file
 * of the cache is written anew beside itself and moved over: of two sweeps at once the later one's is kept, and whatever
 * is lost is judged once more. An entry is found by content and surroundings alone, so none can be stale.
 */
export interface Cache {
  /** Opens the part in which the files of a bucket are kept. */
  readonly open: (bucket: number) => CachePart;
}

export interface CachePart {
  readonly find: (content: string, around: string, at: (zone: string) => number | null) => Entry | null;
  readonly put: (content: string, around: string, entry: Entry) => void;
  /** Writes what is new; an error leaves the cache as it was, since it is no more than a help. */
  readonly save: () => void;
}

/** Into so many parts files are divided, by their names. */
export const buckets = 256;

export const bucketOf = (path: string): number => nameHash(path) % buckets;

/** The folder of the user's own where programs keep such things; null where the surroundings name none. */
export const cacheFolder = ({ env }: Io): string | null => {
  if (env.XDG_CACHE_HOME) return join(env.XDG_CACHE_HOME, 'cornerwise', 'sweep');
  if (env.LOCALAPPDATA) return join(env.LOCALAPPDATA, 'cornerwise', 'cache', 'sweep');
  const home = env.HOME ?? env.USERPROFILE;
  return home ? join(home, '.cache', 'cornerwise', 'sweep') : null;
};

const day = 86_400_000;
/** An entry that no sweep met for so long is left out when its part is next written. */
const keptDays = 30;
/** The day of an entry is only written anew once it is as old as this, so that most nights write nothing. */
const noteAfterDays = 7;

const bound = (text: string): number =>
  text === '-' ? Number.NEGATIVE_INFINITY : text === '+' ? Number.POSITIVE_INFINITY : Number(text);

const boundText = (at: number): string =>
  at === Number.NEGATIVE_INFINITY ? '-' : at === Number.POSITIVE_INFINITY ? '+' : String(at);

/** `content around day from until zone status standing`, apart by blanks; the last one alone may hold more of them. */
interface Line extends Entry {
  readonly content: string;
  readonly around: string;
  /** When a sweep last met it, in days. */
  readonly day: number;
}

const readLine = (text: string): Line | null => {
  const parts: string[] = [];
  let start = 0;
  for (let count = 0; count < 7; count += 1) {
    const end = text.indexOf(' ', start);
    if (end < 0) return null;
    parts.push(text.slice(start, end));
    start = end + 1;
  }
  const [content = '', around = '', noted = '', from = '', until = '', zone = '', status = ''] = parts;
  return {
    content,
    around,
    day: Number(noted),
    from: bound(from),
    until: bound(until),
    zone,
    status: status as Standing['status'],
    json: text.slice(start),
  };
};

const lineText = ({ content, around, day: noted, from, until, zone, status, json }: Line): string =>
  `${content} ${around} ${noted} ${boundText(from)} ${boundText(until)} ${zone} ${status} ${json}\n`;

/** The last line of a part, so that one that was cut short is known. */
const end = 'end\n';

const readPart = (path: string): Line[] => {
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch {
    return [];
  }
  if (!text.endsWith(end)) return [];
  return text
    .slice(0, -end.length)
    .split('\n')
    .map(readLine)
    .filter((line) => line !== null);
};

const dropFile = (path: string): void => {
  try {
    rmSync(path, { force: true });
  } catch {
    // There is no folder for it to lie in.
  }
};

const openPart = (folder: string, bucket: number, today: number): CachePart => {
  const path = join(folder, `${bucket.toString(16).padStart(2, '0')}.txt`);
  // Of one content there may be several: other surroundings, or other times.
  const lines = new Map<string, Line[]>();
  for (const line of readPart(path)) {
    if (today - line.day > keptDays) continue;
    const key = `${line.content} ${line.around}`;
    const same = lines.get(key);
    if (same) same.push(line);
    else lines.set(key, [line]);
  }
  let changed = false;
  return {
    find: (content, around, at) => {
      const same = lines.get(`${content} ${around}`);
      if (!same) return null;
      for (const [index, line] of same.entries()) {
        const asOf = at(line.zone);
        if (asOf === null || asOf < line.from || asOf >= line.until) continue;
        if (today - line.day > noteAfterDays) {
          same[index] = { ...line, day: today };
          changed = true;
        }
        return line;
      }
      return null;
    },
    put: (content, around, { from, until, zone, status, json }) => {
      const key = `${content} ${around}`;
      const line = { content, around, day: today, from, until, zone, status, json };
      // What held at other times is of the past, or was asked for by --as-of; the newest is enough.
      lines.set(key, [line]);
      changed = true;
    },
    save: () => {
      if (!changed) return;
      // The folder may be shared between machines, on which processes bear the same numbers.
      const temporary = `${path}.${randomUUID()}`;
      try {
        mkdirSync(folder, { recursive: true, mode: 0o700 });
        writeFileSync(temporary, [...lines.values()].flat().map(lineText).join('') + end, { mode: 0o600 });
        renameSync(temporary, path);
      } catch {
        dropFile(temporary);
      }
    },
  };
};

/**
 * Opens a cache.
 *
 * @param folder where it lies; it is made when there is something to keep
 * @param now the time, for leaving out what was not met for long
 */
export const openCache = (folder: string, now: number): Cache => ({
  open: (bucket) => openPart(folder, bucket, Math.floor(now / day)),
});

/** A cache that keeps nothing. */
export const noCache: Cache = {
  open: () => ({ find: () => null, put: () => {}, save: () => {} }),
};
