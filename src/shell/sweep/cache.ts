import { join } from 'node:path';
import type { Standing } from '../../core/sweep/row.ts';
import type { Span } from '../../core/sweep/steady.ts';
import { clearLeft } from '../disk/left-behind.ts';
import { mistrust } from '../disk/mistrust.ts';
import { readPlainText } from '../disk/read-plain.ts';
import { makeFolder, writeWhole } from '../disk/write-whole.ts';
import type { Io } from '../io.ts';
import { contentHash, nameHash, sealLength } from './hash.ts';

/** The result for the content of a job file under some inputs, and the span of time in which it holds. */
export interface Entry extends Span {
  /** The standing as JSON; empty for a closed job that was not asked for. */
  readonly json: string;
  readonly status: Standing['status'];
  readonly zone: string;
}

/**
 * Results of earlier sweeps, on the disk. They are divided into shards by the name of the job file, so that only one
 * shard need be in memory at a time. A shard is written beside itself and moved over: of two sweeps at once the later
 * one's is kept, and a result that is lost is only judged again. An entry is found by content and inputs alone, so none
 * can be stale. The first line of a shard is the hash of the others, so that none can be damaged.
 */
export interface Cache {
  /** Opens a shard by its number, from 0 to below `cacheShards`. */
  readonly open: (shard: number) => CacheShard;
}

export interface CacheShard {
  /**
   * Finds the entry that holds at an instant.
   *
   * @param content the hash of the job file
   * @param inputs the key of what it was judged by
   * @param at the instant to judge at in a zone; null where there is none
   */
  readonly find: (content: string, inputs: string, at: (zone: string) => number | null) => Entry | null;
  readonly put: (content: string, inputs: string, entry: Entry) => void;
  /** Writes the shard if it changed. An error leaves the file as it was, since a sweep can do without. */
  readonly save: () => void;
}

/** The number of cache shards. */
const cacheShards = 256;

/** The shard that holds the results of a file, by its name as printed. */
export const cacheShardOf = (name: string): number => nameHash(name) % cacheShards;

/** The sweep's folder in the user's cache folder; null where the environment names none. */
export const cacheFolder = ({ env }: Io): string | null => {
  if (env.XDG_CACHE_HOME) return join(env.XDG_CACHE_HOME, 'cornerwise', 'sweep');
  if (env.LOCALAPPDATA) return join(env.LOCALAPPDATA, 'cornerwise', 'cache', 'sweep');
  const home = env.HOME ?? env.USERPROFILE;
  return home ? join(home, '.cache', 'cornerwise', 'sweep') : null;
};

const day = 86_400_000;
/** An entry that no sweep has used for so long is left out when its shard is next written. */
const keptDays = 30;
/** The day of an entry is updated only when it is older than this, so that most nights write nothing. */
const noteAfterDays = 7;

const bound = (text: string): number =>
  text === '-' ? Number.NEGATIVE_INFINITY : text === '+' ? Number.POSITIVE_INFINITY : Number(text);

const boundText = (at: number): string =>
  at === Number.NEGATIVE_INFINITY ? '-' : at === Number.POSITIVE_INFINITY ? '+' : String(at);

/** `content inputs day from until zone status json`, separated by spaces; only the last may contain spaces. */
interface Line extends Entry {
  readonly content: string;
  readonly inputs: string;
  /** The day when a sweep last used it, counted from 1970. */
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
  const [content = '', inputs = '', noted = '', from = '', until = '', zone = '', status = ''] = parts;
  return {
    content,
    inputs,
    day: Number(noted),
    from: bound(from),
    until: bound(until),
    zone,
    status: status as Standing['status'],
    json: text.slice(start),
  };
};

const lineText = ({ content, inputs, day: noted, from, until, zone, status, json }: Line): string =>
  `${content} ${inputs} ${noted} ${boundText(from)} ${boundText(until)} ${zone} ${status} ${json}\n`;

/** A shard of a hundred thousand jobs is far smaller; a larger one is none of ours. */
const largestShard = 1 << 28;

const readShard = (path: string): Line[] => {
  let text: string;
  try {
    text = readPlainText(path, largestShard);
  } catch {
    return [];
  }
  const [seal, body] = [text.slice(0, sealLength), text.slice(sealLength + 1)];
  // Whatever happened to it since it was written: it is judged again.
  if (seal !== contentHash(body)) {
    mistrust(path);
    return [];
  }
  return body
    .split('\n')
    .map(readLine)
    .filter((line) => line !== null);
};

const openShard = (folder: string, shard: number, today: number): CacheShard => {
  const path = join(folder, `${shard.toString(16).padStart(2, '0')}.txt`);
  // The same content and inputs may have several entries, for different times.
  const lines = new Map<string, Line[]>();
  for (const line of readShard(path)) {
    if (today - line.day > keptDays) continue;
    const key = `${line.content} ${line.inputs}`;
    const same = lines.get(key);
    if (same) same.push(line);
    else lines.set(key, [line]);
  }
  let changed = false;
  return {
    find: (content, inputs, at) => {
      const same = lines.get(`${content} ${inputs}`);
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
    put: (content, inputs, { from, until, zone, status, json }) => {
      const key = `${content} ${inputs}`;
      const line = { content, inputs, day: today, from, until, zone, status, json };
      // Entries for other times are past, or were asked for with --as-of; keep only the newest.
      lines.set(key, [line]);
      changed = true;
    },
    save: () => {
      if (!changed) return;
      try {
        makeFolder(folder);
        const body = [...lines.values()].flat().map(lineText).join('');
        writeWhole(path, [`${contentHash(body)}\n`, body], { mode: 0o600 });
      } catch {
        // What cannot be kept is judged again.
      }
    },
  };
};

/**
 * Opens a cache.
 *
 * @param folder where it lies; it is made when there is something to keep
 * @param now the time, by which entries that were long not used are left out
 */
export const openCache = (folder: string, now: number): Cache => {
  clearLeft(folder);
  return { open: (shard) => openShard(folder, shard, Math.floor(now / day)) };
};
