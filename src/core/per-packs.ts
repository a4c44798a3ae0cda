import type { Pack } from './pack.ts';

interface Branch<T> {
  readonly next: WeakMap<Pack, Branch<T>>;
  made: { readonly value: T } | null;
}

const branch = <T>(): Branch<T> => ({ next: new WeakMap(), made: null });

/**
 * Keeps what is made of a list of packs for as long as the packs live: many jobs are judged with the same few, each
 * with a list of its own.
 */
export const perPacks = <T>(make: (packs: readonly Pack[]) => T): ((packs: readonly Pack[]) => T) => {
  const root = branch<T>();
  return (packs) => {
    let at = root;
    for (const pack of packs) {
      let next = at.next.get(pack);
      if (next === undefined) {
        next = branch();
        at.next.set(pack, next);
      }
      at = next;
    }
    at.made ??= { value: make(packs) };
    return at.made.value;
  };
};
