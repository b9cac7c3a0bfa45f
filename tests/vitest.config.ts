import { defineConfig } from 'vitest/config';

/**
 * Tests import the packages by name; the workspace links lead to their `src`, so no build stands between.
 * Two projects: `unit`, which needs Node only, and `host`, which runs a real editor and needs the build.
 */
export default defineConfig({
  root: import.meta.dirname,
  test: {
    allowOnly: false,
    passWithNoTests: false,
    globalSetup: ['./scripts/vitest-setup.mjs'],
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: ['**/*.test.ts'],
          exclude: ['**/node_modules/**', '**/dist/**', 'host/**'],
          setupFiles: ['./support/seed.ts'],
          testTimeout: 120_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'host',
          include: ['host/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 600_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
