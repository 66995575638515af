import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    exclude: ['tests/e2e/**', 'tests/bench/**'],
    // Judged by their answers, never by the clock: speed lives in tests/bench.
    testTimeout: 600_000,
    hookTimeout: 600_000,
  },
});
