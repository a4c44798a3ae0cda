import type { Verb } from '../../core/job.ts';

/** Other words for what was done: each is answered with the log's own word, and never taken for it. */
const others: Readonly<Record<string, string>> = {
  learned: 'calibrated ride-height',
  learnt: 'calibrated ride-height',
  relearned: 'calibrated ride-height',
  taught: 'calibrated ride-height',
  zeroed: 'calibrated ride-height',
  fixed: 'repaired',
  mended: 'repaired',
  cleaned: 'repaired',
  tightened: 'repaired',
  changed: 'replaced',
  renewed: 'replaced',
  swapped: 'replaced',
  fitted: 'replaced',
  installed: 'replaced',
  removed: 'disconnected',
  unplugged: 'disconnected',
  unhooked: 'disconnected',
  erased: 'cleared',
  deleted: 'cleared',
  flashed: 'programmed',
  coded: 'configured',
  aligned: 'adjusted',
  set: 'adjusted',
  filled: 'inflated',
  pumped: 'inflated',
  measured: 'tested',
  checked: 'tested',
  looked: 'inspected',
  viewed: 'inspected',
  seen: 'inspected',
  driven: 'drove',
  'road-tested': 'drove',
  done: 'completed',
  finished: 'completed',
  arrived: 'received',
  got: 'received',
  bought: 'ordered',
  approved: 'authorised',
  refused: 'declined',
  wrote: 'noted',
  note: 'noted',
} satisfies Readonly<Record<string, `${Verb}${string}`>>;

/** What to write for a word that the log does not use, such as `calibrated ride-height` for "learned"; null for others. */
export const verbMeant = (typed: string): string | null => {
  const word = typed.trim().toLowerCase();
  return Object.hasOwn(others, word) ? (others[word] ?? null) : null;
};
