import { setFlagsFromString } from 'node:v8';

/**
 * Has V8 put fewer functions into others when it compiles the busy ones: over many jobs that compiles nearly all of the
 * judging, which with its usual measure takes longer than what is won. It holds for all threads of the process, and
 * changes no result.
 */
export const compileLess = (): void => setFlagsFromString('--max-inlined-bytecode-size=60');
