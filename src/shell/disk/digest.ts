import { createHash } from 'node:crypto';

/** SHA-256 of some bytes, in hex: tells whether a file is the one that was read. */
export const digest = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
