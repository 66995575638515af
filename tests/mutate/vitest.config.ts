import { defineConfig } from 'vitest/config';

/** What a mutant has to get past: tests of the reasoner that take moments. Keys weigh thousands of orders, and the oracles thousands of atlases. */
export default defineConfig({
  test: {
    include: ['tests/unit/{reasoner,plate,numbers,fits,why}/*.test.ts', 'tests/property/reasoner/networks.test.ts'],
    exclude: ['tests/unit/reasoner/{key,tell-apart}.test.ts', 'tests/unit/numbers/report.test.ts'],
    testTimeout: 600_000,
    // One worker reads the reasoner once for all files; what is mutated is switched while it runs.
    isolate: false,
  },
});
