import { digest } from '../disk/digest.ts';

/** How a version leads back to the one before it: what stood in the place of some of its bytes. */
export interface Way {
  readonly at: number;
  readonly length: number;
  readonly was: Uint8Array;
}

/** What made a version of a file. */
export interface Cause {
  /** When, as ISO 8601 in UTC. */
  readonly at: string;
  /** The command; null for other hands. */
  readonly by: string | null;
  /** What it was, for people. */
  readonly what: string;
  /** The number of an earlier version that came back where a change was taken back; null for every other change. */
  readonly as: number | null;
}

/** A file as it once was. */
export interface Version extends Cause {
  /** Counts up, and stays with its version however many follow. */
  readonly number: number;
  readonly sha256: string;
  /** Null for the oldest that is kept. */
  readonly back: Way | null;
}

/** The kept versions of a file, the oldest first; only the newest is kept whole. */
export interface History {
  readonly versions: readonly Version[];
  readonly newest: Uint8Array;
}

/** More versions than this, or more bytes of earlier ones, are not kept: the oldest go first. */
const mostVersions = 100;
const mostBytes = 4 << 20;

/** The way back from some bytes to those before: all between what both begin with and what both end with. */
const wayBack = (before: Uint8Array, after: Uint8Array): Way => {
  const shorter = Math.min(before.length, after.length);
  let at = 0;
  while (at < shorter && before[at] === after[at]) at += 1;
  let end = 0;
  while (end < shorter - at && before[before.length - 1 - end] === after[after.length - 1 - end]) end += 1;
  return { at, length: after.length - end - at, was: before.slice(at, before.length - end) };
};

const wentBack = (bytes: Uint8Array, { at, length, was }: Way): Uint8Array =>
  Buffer.concat([bytes.subarray(0, at), was, bytes.subarray(at + length)]);

/** The history of a file that nothing is known of yet. */
export const begun = (bytes: Uint8Array, at: string): History => ({
  versions: [{ number: 1, at, by: null, what: '', as: null, sha256: digest(bytes), back: null }],
  newest: bytes,
});

const withinBounds = (versions: readonly Version[]): Version[] => {
  const kept: Version[] = [];
  let bytes = 0;
  for (const version of [...versions].reverse()) {
    bytes += version.back?.was.length ?? 0;
    const isLast = kept.length + 1 === mostVersions || bytes > mostBytes;
    kept.push(isLast ? { ...version, back: null } : version);
    if (isLast) break;
  }
  return kept.reverse();
};

/** A history with one more version. */
export const grown = ({ versions, newest }: History, bytes: Uint8Array, cause: Cause): History => {
  const number = (versions.at(-1)?.number ?? 0) + 1;
  const next = { ...cause, number, sha256: digest(bytes), back: wayBack(newest, bytes) };
  return { versions: withinBounds([...versions, next]), newest: bytes };
};

/** What is said of a version that no command made. */
export const byOtherHands = 'edited by other hands';

/**
 * The history of a file as it is now. Where that is not the newest version, other hands made it, or a command was killed
 * between the record and the file: both become a version, so that whatever is written next loses nothing.
 *
 * @param at when the file was saved, as ISO 8601 in UTC
 */
export const upToNow = (history: History, bytes: Uint8Array, at: string): History => {
  const sha256 = digest(bytes);
  const newest = history.versions.at(-1);
  if (newest?.sha256 === sha256) return history;
  const as = history.versions.findLast((version) => version.sha256 === sha256)?.number ?? null;
  return grown(history, bytes, { at, by: null, what: byOtherHands, as });
};

/** Every kept version with its bytes, the newest first. */
export function* unrolled({
  versions,
  newest,
}: History): Generator<{ readonly version: Version; readonly bytes: Uint8Array }> {
  let bytes = newest;
  for (const version of [...versions].reverse()) {
    // Never trusted: a way that leads elsewhere ends here.
    if (digest(bytes) !== version.sha256) return;
    yield { version, bytes };
    if (version.back === null) return;
    bytes = wentBack(bytes, version.back);
  }
}

/** The bytes of a version; null where it is not kept. */
export const bytesOf = (history: History, number: number): Uint8Array | null => {
  for (const { version, bytes } of unrolled(history)) if (version.number === number) return bytes;
  return null;
};

/** A change that can be taken back, and the version that it was made on. */
export interface Step {
  readonly change: Version;
  readonly to: Version;
}

const byNumber = ({ versions }: History): ((number: number) => Version | undefined) => {
  const all = new Map(versions.map((version) => [version.number, version]));
  return (number) => all.get(number);
};

/** The version that a file is again where changes were taken back; undefined where that is not kept any more. */
const meant = (
  version: Version | undefined,
  numbered: (number: number) => Version | undefined,
): Version | undefined =>
  version === undefined || version.as === null ? version : meant(numbered(version.as), numbered);

/**
 * The changes that can be taken back one after the other, the last first: what commands made, up to where other hands
 * came in between. Those that were taken back already are passed over.
 */
export function* stepsBack(history: History): Generator<Step> {
  const numbered = byNumber(history);
  let change = meant(history.versions.at(-1), numbered);
  while (change !== undefined && change.by !== null) {
    const to = numbered(change.number - 1);
    if (to === undefined) return;
    yield { change, to };
    change = meant(to, numbered);
  }
}

/** The last change by a command, where other hands made what the file is now; null where there is none before that. */
export const changeBefore = (history: History): Version | null => {
  const now = meant(history.versions.at(-1), byNumber(history));
  if (now === undefined || now.by !== null) return null;
  return (
    history.versions.findLast(({ by, as, number }) => by !== null && as === null && number < now.number) ??
    null
  );
};

const newline = 10;

/** The lines of some bytes, as text that can be compared. */
const linesOf = (bytes: Uint8Array): string[] => Buffer.from(bytes).toString('latin1').split('\n');

/** How many lines a version has that the one before it had not, and the other way round. */
export const linesChanged = (bytes: Uint8Array, { at, length, was }: Way): readonly [number, number] => {
  const from = at === 0 ? 0 : bytes.lastIndexOf(newline, at - 1) + 1;
  const next = bytes.indexOf(newline, at + length);
  const to = next < 0 ? bytes.length : next;
  const is = linesOf(bytes.subarray(from, to));
  const before = Buffer.concat([bytes.subarray(from, at), was, bytes.subarray(at + length, to)]);
  const counts = new Map<string, number>();
  for (const line of linesOf(before)) counts.set(line, (counts.get(line) ?? 0) + 1);
  let added = 0;
  for (const line of is) {
    const left = counts.get(line) ?? 0;
    if (left === 0) added += 1;
    else counts.set(line, left - 1);
  }
  return [added, [...counts.values()].reduce((sum, count) => sum + count, 0)];
};
