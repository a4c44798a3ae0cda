/** A check's own map in its pack, as plain values. */
export type RawCheck = Readonly<Record<string, unknown>>;

/** Canonical text of what a check means: keys sorted, its title and its words left out. */
export const definitionOf = (raw: RawCheck): string =>
  JSON.stringify({ ...raw, title: null, says: null }, (_key, inner: unknown) =>
    typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
