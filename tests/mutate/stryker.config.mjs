const mutated = process.env.KINPLATE_MUTATE ?? '';
const kept = `.mutants/${mutated.replace(/\/\*\*.*$/, '').replaceAll('/', '-')}`;

/** Set by mutate.mjs: one folder or file of the reasoner. Each change of it is run against the tests that reach it. */
export default {
  mutate: [mutated],
  testRunner: 'vitest',
  plugins: ['@stryker-mutator/vitest-runner'],
  vitest: { configFile: 'tests/mutate/vitest.config.ts', related: false },
  coverageAnalysis: 'perTest',
  // What stands between quotes is mostly a sentence, and wording alone is no reason for a test; ids and kinds the types hold.
  mutator: { excludedMutations: ['StringLiteral'] },
  // A table made when a module is read cannot be switched while it runs.
  ignoreStatic: true,
  incremental: true,
  incrementalFile: `${kept}.json`,
  tempDirName: '.mutants/sandbox',
  reporters: ['clear-text', 'json'],
  jsonReporter: { fileName: `${kept}-report.json` },
  clearTextReporter: { logTests: false, reportTests: false, allowColor: false },
  ignorePatterns: ['/build', '/test-results', '/.mutants'],
  // Stryker would read tsconfig.json with TypeScript's former interface. Types are checked elsewhere.
  tsconfigFile: 'none',
  disableTypeChecks: false,
  concurrency: 1,
};
