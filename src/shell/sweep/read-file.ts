import { closeSync, constants, fstatSync, openSync, readSync } from 'node:fs';
import { largest } from '../../input/yaml/decode.ts';

const notPlain = (code: string): Error => Object.assign(new Error(code), { code });

/**
 * The bytes of a plain file. A sweep reads thousands of small files, for which waiting for each is twice as fast as
 * asking for many at once. A pipe or a device, which could keep it for ever, is not opened for reading; of a file above
 * the limit only so much is read that it is known to be above.
 *
 * @throws with `code`: what the system says, `EISDIR`, or `not a plain file`
 */
export const readPlainFile = (path: string): Uint8Array => {
  const file = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  let bytes: Uint8Array | null;
  try {
    const found = fstatSync(file);
    if (found.isDirectory()) throw notPlain('EISDIR');
    if (!found.isFile()) throw notPlain('not a plain file');
    bytes = readUpTo(file, Math.min(found.size, largest + 1));
  } finally {
    closeSync(file);
  }
  // It grew while it was read. That ends at the limit.
  return bytes ?? readPlainFile(path);
};

/** Up to `size` bytes of an open file; null where it has more, and is not above the limit. */
const readUpTo = (file: number, size: number): Uint8Array | null => {
  const bytes = Buffer.allocUnsafe(size + 1);
  // Of a plain file the system gives less than was asked for only at its end.
  const length = readSync(file, bytes, 0, bytes.length, null);
  if (length <= size) return bytes.subarray(0, length);
  return size > largest ? bytes : null;
};
