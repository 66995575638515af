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

/**
 * Tests that put something in the place of a module, or count what V8 runs, by the methods of arrays. Each file of these has
 * everything loaded for itself, which takes a core two and a half seconds. All others share what one process has loaded: the demo atlas is read and compiled
 * once, and not for each of three hundred files.
 */
const apart = [
  ...['contract', 'main-life', 'main-locks', 'staff'].map((name) => `tests/unit/electron/${name}.test.ts`),
  'tests/unit/limits/*.test.ts',
];
const every = 'tests/**/*.test.{ts,tsx}';
const never = ['tests/e2e/**', 'tests/bench/**'];

export default defineConfig({
  test: {
    projects: [
      { extends: true, test: { name: 'together', include: [every], exclude: [...never, ...apart], isolate: false } },
      { extends: true, test: { name: 'apart', include: apart, exclude: never } },
    ],
    // Judged by their answers, never by the clock: speed lives in tests/bench.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    sequence: { sequencer: LongFirst },
    // Left to itself Vitest keeps one core free, which of two is every other one.
    maxWorkers: availableParallelism(),
  },
});
