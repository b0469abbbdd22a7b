import { defineConfig } from 'vitest/config';

const setupFiles = ['tests/seed.ts'];

/** Tests that start many processes or wait for real seconds; `npm run test:fast` leaves them out. */
const slow = ['tests/**/*.slow.test.{ts,tsx}'];

export default defineConfig({
  test: {
    projects: [
      { test: { name: 'fast', include: ['tests/**/*.test.{ts,tsx}'], exclude: slow, setupFiles, testTimeout: 20_000 } },
      { test: { name: 'slow', include: slow, setupFiles, testTimeout: 600_000 } },
    ],
  },
});
