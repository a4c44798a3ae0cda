import type { WorksheetStep } from '../worksheet-parts.ts';

/**
 * Outstanding steps in an order that respects what waits for what: those that can be begun now first, the shortest
 * of them ahead; then the waiting ones, each after all that it waits for, again the shortest ahead where there is a
 * choice. Equal minutes keep the packs' order.
 */
export const inOrder = (steps: readonly WorksheetStep[]): WorksheetStep[] => {
  const ready = steps.filter(({ state }) => state === 'ready').sort((a, b) => a.minutes - b.minutes);
  const left = new Set(steps.filter(({ state }) => state === 'waiting'));
  const ordered = [...ready];
  while (left.size > 0) {
    const pending = new Set([...left].map(({ id }) => id));
    const free = [...left].filter(({ waitsFor }) => !waitsFor.some((id) => pending.has(id)));
    // Packs with a cycle are refused when they are read; without one there is always a free step.
    const [next] = (free.length > 0 ? free : [...left]).sort((a, b) => a.minutes - b.minutes);
    if (!next) break;
    ordered.push(next);
    left.delete(next);
  }
  return ordered;
};

/** The first cycle in a graph of names, as the path that closes (`a, b, a`), or null. */
export const findCycle = (after: ReadonlyMap<string, readonly string[]>): string[] | null => {
  const done = new Set<string>();
  const walk = (name: string, path: readonly string[]): string[] | null => {
    const seen = path.indexOf(name);
    if (seen >= 0) return [...path.slice(seen), name];
    if (done.has(name)) return null;
    for (const next of after.get(name) ?? []) {
      const cycle = walk(next, [...path, name]);
      if (cycle) return cycle;
    }
    done.add(name);
    return null;
  };
  for (const name of after.keys()) {
    const cycle = walk(name, []);
    if (cycle) return cycle;
  }
  return null;
};
