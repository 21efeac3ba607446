import { defineConfig } from 'vitest/config';

/** Tests that start the command line, worker threads, servers or whole runs. */
const SYSTEM = ['system', 'commands', 'session', 'run', 'queue', 'attacks'].map(
  (folder) => `test/${folder}/**/*.test.ts`,
);

export default defineConfig({
  test: {
    maxWorkers: 2,
    projects: [
      {
        test: {
          name: 'unit',
          setupFiles: ['test/support/fixed-seed.ts'],
          include: ['test/**/*.test.ts'],
          exclude: SYSTEM,
          // pure functions: what one file loads may stay loaded for the next, which saves most of the time
          isolate: false,
          pool: 'threads',
          testTimeout: 600_000,
          hookTimeout: 600_000,
        },
      },
      {
        test: {
          name: 'system',
          setupFiles: ['test/support/fixed-seed.ts'],
          include: SYSTEM,
          pool: 'forks',
          // what one file loads stays loaded for the next; a test puts back what it changes in its process
          isolate: false,
          testTimeout: 600_000,
          hookTimeout: 600_000,
        },
      },
    ],
  },
});
