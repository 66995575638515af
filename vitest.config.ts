import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Small files of these take longest: begun last, they would keep one core waiting for the other. */
const long = /\/tests\/(oracle|property|crash)\//;

class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    return [...sorted.filter(({ moduleId }) => long.test(moduleId)), ...sorted.filter(({ moduleId }) => !long.test(moduleId))];
  }
}

export default defineConfig({
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    exclude: ['tests/e2e/**', 'tests/bench/**'],
    // Judged by their answers, never by the clock: speed lives in tests/bench.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    sequence: { sequencer: LongFirst },
    // Left to itself Vitest keeps one core free, which of two is every other one.
    maxWorkers: availableParallelism(),
  },
});
