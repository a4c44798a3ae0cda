/** Keeps what is made of two objects for as long as both live. */
export const keptByTwo = <A extends object, B extends object, T>(
  make: (a: A, b: B) => T,
): ((a: A, b: B) => T) => {
  const kept = new WeakMap<A, WeakMap<B, { readonly value: T }>>();
  return (a, b) => {
    let own = kept.get(a);
    if (own === undefined) {
      own = new WeakMap();
      kept.set(a, own);
    }
    let made = own.get(b);
    if (made === undefined) {
      made = { value: make(a, b) };
      own.set(b, made);
    }
    return made.value;
  };
};
