export { realIo } from './io.ts';
export { run } from './run.ts';
