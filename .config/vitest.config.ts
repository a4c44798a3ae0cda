import { defineConfig } from 'vitest/config';

/** Tests that mock a module, load one anew or change the zone of their process: each has a process of its own. */
const isolated = [
  'tests/shell/host-clock.test.ts',
  'tests/shell/judged-once.test.ts',
  'tests/shell/disk/create-file.test.ts',
  'tests/shell/disk/lock.test.ts',
  'tests/shell/disk/lost-race.test.ts',
  'tests/time/zones.test.ts',
];

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    reporters: process.env.CI ? ['default', ['json', { outputFile: 'coverage/results.json' }]] : ['default'],
    // The default leaves one core to the person at the machine, which halves a small one.
    maxWorkers: '100%',
    testTimeout: 60_000,
    hookTimeout: 60_000,
    projects: [
      { extends: true, test: { name: 'isolated', include: isolated } },
      {
        extends: true,
        // Importing the program costs more than most tests do, so the files of a worker share one import.
        test: { name: 'shared', isolate: false, include: ['tests/**/*.test.ts'], exclude: isolated },
      },
    ],
  },
});
