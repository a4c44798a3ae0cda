import { Readable } from 'node:stream';
import { TooLarge } from './read-plain.ts';

/** Whether a name stands for standard input, which may be a pipe. */
export const isStdin = (name: string): boolean =>
  name === '-' || /^\/(?:dev\/stdin|dev\/fd\/0|proc\/self\/fd\/0)$/u.test(name);

type Stream = AsyncIterable<Uint8Array | string>;

/** What comes in, up to a limit; to leave the loop early closes the stream. */
async function* upTo(stream: Stream, limit: number): AsyncGenerator<Uint8Array> {
  let size = 0;
  for await (const chunk of stream) {
    const bytes = typeof chunk === 'string' ? Buffer.from(chunk) : chunk;
    size += bytes.length;
    if (size > limit) throw new TooLarge(null, limit);
    yield bytes;
  }
}

/**
 * All that comes in on standard input, whatever it is: a file, a pipe or a terminal. What is above the limit is not
 * waited for.
 *
 * @param limit in bytes
 * @throws TooLarge, or what the system says
 */
export const readStream = async (stream: Stream, limit: number): Promise<Uint8Array> => {
  const chunks: Uint8Array[] = [];
  for await (const bytes of upTo(stream, limit)) chunks.push(bytes);
  return Buffer.concat(chunks);
};

/** The same as a stream that ends at the limit, for answers that are read one by one. */
export const streamUpTo = (stream: Stream, limit: number): Readable =>
  Readable.from(
    (async function* () {
      try {
        yield* upTo(stream, limit);
      } catch (error) {
        if (!(error instanceof TooLarge)) throw error;
      }
    })(),
    { objectMode: false },
  );
