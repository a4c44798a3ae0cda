import type { Problem } from '../input/problem.ts';
import { decode, largest } from '../input/yaml/decode.ts';
import type { Io } from './io.ts';
import { readFailure } from './read-failure.ts';

/** The text that comes in on standard input, or why there is none. */
export const stdinText = async (
  io: Pick<Io, 'readStdin'>,
): Promise<{ readonly text: string } | { readonly problem: Problem }> => {
  try {
    return decode(await io.readStdin(largest));
  } catch (error) {
    return { problem: readFailure(error, '-') };
  }
};
