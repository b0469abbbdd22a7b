import { defineConfig } from 'vitest/config';

/** Tests that start many processes or wait for real seconds; `npm run test:fast` leaves them out. */
const slow = ['tests/**/*.slow.test.{ts,tsx}'];

export default defineConfig({
  test: {
    projects: [
      { test: { name: 'fast', include: ['tests/**/*.test.{ts,tsx}'], exclude: slow, testTimeout: 20_000 } },
      { test: { name: 'slow', include: slow, testTimeout: 600_000 } },
    ],
  },
});
