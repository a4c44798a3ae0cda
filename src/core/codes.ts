import type { CodeStatus } from './job.ts';

const systems = ['P', 'C', 'B', 'U'] as const;

/**
 * The text of a two-byte trouble code: bits 15–14 the system, bits 13–12 the first digit, then three hex digits.
 * Source: ISO 15031-6 / SAE J2012; held to examples in tests/outside/trouble-codes.test.ts.
 */
export const codeText = (bytes: number): string => {
  const system = systems[(bytes >> 14) & 0b11] ?? 'P';
  const first = (bytes >> 12) & 0b11;
  return `${system}${first}${(bytes & 0xfff).toString(16).toUpperCase().padStart(3, '0')}`;
};

/** The bits of a trouble code's status byte. Source: ISO 14229-1, D.2. */
export const statusBits = {
  testFailed: 1 << 0,
  testFailedThisOperationCycle: 1 << 1,
  pending: 1 << 2,
  confirmed: 1 << 3,
  testNotCompletedSinceLastClear: 1 << 4,
  testFailedSinceLastClear: 1 << 5,
  testNotCompletedThisOperationCycle: 1 << 6,
  warningIndicatorRequested: 1 << 7,
} as const;

/** The names of the bits that a status byte sets, lowest first. */
export const statusNames = (mask: number): (keyof typeof statusBits)[] =>
  (Object.keys(statusBits) as (keyof typeof statusBits)[]).filter((name) => (mask & statusBits[name]) !== 0);

/** The word for a status byte: failing now, else confirmed, else pending, else history. */
export const statusOf = (mask: number): CodeStatus => {
  if (mask & statusBits.testFailed) return 'present';
  if (mask & statusBits.confirmed) return 'stored';
  return mask & statusBits.pending ? 'pending' : 'history';
};

/** Cleared and not tested since: neither bit shows a finished test, so an absent failure proves nothing. */
export const neverTested = (mask: number): boolean => {
  const both = statusBits.testNotCompletedSinceLastClear | statusBits.testNotCompletedThisOperationCycle;
  return (mask & both) === both;
};
