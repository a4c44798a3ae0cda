import { parseKey } from '../../core/key.ts';

/** Corners and axles of one channel in one breath: `position LF RF, tank`. */
export const keysText = (keys: readonly string[]): string => {
  const byBase = new Map<string, string[]>();
  for (const key of keys) {
    const { base, corner, axle } = parseKey(key);
    const places = byBase.get(base) ?? [];
    const place = corner ?? axle;
    byBase.set(base, place === null ? places : [...places, place]);
  }
  return [...byBase]
    .map(([base, places]) => (places.length === 0 ? base : `${base} ${places.join(' ')}`))
    .join(', ');
};
