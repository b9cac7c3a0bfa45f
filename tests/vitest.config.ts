import { defineConfig } from 'vitest/config';

/** Tests import the packages by name; the workspace links lead to their `src`, so no build stands between. */
export default defineConfig({
  root: import.meta.dirname,
  test: {
    include: ['**/*.test.ts'],
    exclude: ['**/node_modules/**', '**/dist/**', 'host/suite/**'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    allowOnly: false,
    passWithNoTests: false,
  },
});
