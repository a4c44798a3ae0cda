/** Words that say that something was erased, taken off, written over, ended or given up. */
const weighty: ReadonlySet<string> = new Set([
  'cleared',
  'replaced',
  'disconnected',
  'programmed',
  'configured',
  'skipped',
  'ordered',
  'authorised',
  'declined',
  'passed-on',
  'released',
  'closed',
  'towed',
  'scrapped',
]);

/** Whether all letters of one word stand in another, in their order. */
const isWithin = (short: string, long: string): boolean => {
  let from = 0;
  for (const letter of short) {
    const at = long.indexOf(letter, from);
    if (at < 0) return false;
    from = at + 1;
  }
  return true;
};

/**
 * Whether a word that was not understood may be answered with a known one. A word of weight is offered only where its
 * first letter is there and the others, or all but a few of them, or it was begun: "learned" and "cleaned" are not "cleared", and whoever
 * accepts a suggestion at a glance must not erase anything by it.
 *
 * @param typed in small letters
 */
export const mayBeOffered = (typed: string, name: string): boolean => {
  if (!weighty.has(name)) return true;
  if (typed[0] !== name[0]) return false;
  if (typed.startsWith(name.replace(/e?d$/u, ''))) return true;
  const sorted = (word: string): string => [...word].sort().join('');
  return (
    (typed.length < name.length && isWithin(typed, name)) ||
    (typed.length > name.length && isWithin(name, typed)) ||
    // Letters that changed places.
    sorted(typed) === sorted(name)
  );
};
