import { isJudged, type JudgedRow, type Row, type RowPack } from './row.ts';

/** What is to be known of a pack before the rows that it stands behind are believed. */
export interface PackNotice {
  /**
   * `replaced`: it takes the place of a published or shipped one; `other-bytes`: it changed under its version since the
   * earlier night; `other-version`: another version serves than on the earlier night.
   */
  readonly kind: 'replaced' | 'other-bytes' | 'other-version';
  readonly id: string;
  readonly version: string;
  /** The version of the earlier night; null for one that is replaced. */
  readonly was: string | null;
  /** How many jobs it concerns. */
  readonly jobs: number;
}

const differing = (before: readonly RowPack[], now: RowPack): Omit<PackNotice, 'jobs'> | null => {
  const was = before.find(({ id }) => id === now.id);
  if (was === undefined || was.sha256 === now.sha256) return null;
  const kind = was.version === now.version ? 'other-bytes' : 'other-version';
  return { kind, id: now.id, version: now.version, was: was.version };
};

const ofPack = (pack: RowPack, before: JudgedRow['packs'] | null): Omit<PackNotice, 'jobs'>[] => {
  const { id, version } = pack;
  const changed = before === null ? null : differing(before, pack);
  return [
    ...(pack.replaced ? [{ kind: 'replaced', id, version, was: null } as const] : []),
    ...(changed === null ? [] : [changed]),
  ];
};

const order = ['replaced', 'other-bytes', 'other-version'];

/**
 * Gathers what is to be known of the packs of a sweep, one notice for each, the gravest first.
 *
 * @param rows each with the packs of the earlier night; null where that knows nothing of the job
 */
export const packNotices = (
  rows: Iterable<readonly [row: Row, before: JudgedRow['packs'] | null]>,
): PackNotice[] => {
  const found = new Map<string, PackNotice>();
  for (const [row, before] of rows) {
    if (!isJudged(row)) continue;
    for (const notice of row.packs.flatMap((pack) => ofPack(pack, before))) {
      const key = JSON.stringify(notice);
      found.set(key, { ...notice, jobs: (found.get(key)?.jobs ?? 0) + 1 });
    }
  }
  return [...found.values()].sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind));
};
