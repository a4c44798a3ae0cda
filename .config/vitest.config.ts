import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/**/*.test.ts'],
    reporters: process.env.CI ? ['default', ['json', { outputFile: 'coverage/results.json' }]] : ['default'],
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
