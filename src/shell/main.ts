export { useHostClock } from './host-clock.ts';
export { realIo } from './io.ts';
export { run } from './run.ts';
