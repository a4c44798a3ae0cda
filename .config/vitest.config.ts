import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/**/*.test.ts'],
    reporters: process.env.CI ? ['default', ['json', { outputFile: 'coverage/results.json' }]] : ['default'],
    // The usual leaves one core to the person at the machine, which halves a small one.
    maxWorkers: '100%',
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
