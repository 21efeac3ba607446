import { defineConfig } from 'vitest/config';

/** Tests that drive a real browser: `npm run test:browser`, with Debian's Chromium installed. */
export default defineConfig({
  test: {
    include: ['test/browser/**/*.browser.ts'],
    testTimeout: 600_000,
    hookTimeout: 600_000,
    // one browser at a time
    fileParallelism: false,
  },
});
