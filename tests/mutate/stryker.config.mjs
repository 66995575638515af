const mutated = process.env.KINPLATE_MUTATE ?? '';
const kept = `.mutants/${mutated.replace(/\/\*\*.*$/, '').replaceAll('/', '-')}`;

/** The tests of each room that may be changed: folders, and files in them that are left out. */
const rooms = {
  reasoner: {
    folders: ['tests/unit/reasoner', 'tests/unit/plate', 'tests/unit/numbers', 'tests/unit/why', 'tests/unit/fits', 'tests/external/plate'],
    // Keys weigh thousands of orders, and these others every sheet of the demo atlas: too long to be asked for every change elsewhere.
    leave: [
      'reasoner/key',
      'reasoner/tell-apart',
      'reasoner/tickets',
      'reasoner/confirmed',
      'numbers/report',
      'fits/as-found',
      'why/effort',
      'why/over-samples',
    ],
  },
  db: {
    folders: ['tests/unit/db', 'tests/unit/db/mend', 'tests/unit/db/photos'],
    // Of other parts of the room, and slow; or they compare with files that Vitest keeps.
    leave: [
      'db/demo-pack',
      'db/driver',
      'db/driver-contract',
      'db/graph',
      'db/json-schemas',
      'db/kept-fits',
      'db/leaning',
      'db/lists',
      'db/loading-a-change',
      'db/migrations',
      'db/pack-loading',
      'db/pack-reading',
      'db/search',
      'db/tree',
    ],
  },
};

/** Set by mutate.mjs: one folder or file. Each change of it is run against the tests that reach it. */
export default {
  mutate: [mutated],
  plugins: ['./tests/mutate/in-process-runner.mjs'],
  testRunner: 'in-process',
  inProcess: rooms[mutated.split('/')[0]],
  warnings: { unknownOptions: false },
  coverageAnalysis: 'perTest',
  // What stands between quotes is mostly a sentence, and wording alone is no reason for a test; ids and kinds the types hold.
  mutator: { excludedMutations: ['StringLiteral'] },
  incremental: true,
  incrementalFile: `${kept}.json`,
  tempDirName: '.mutants/sandbox',
  reporters: ['clear-text', 'json', 'progress-append-only'],
  jsonReporter: { fileName: `${kept}-report.json` },
  clearTextReporter: { logTests: false, reportTests: false, allowColor: false },
  ignorePatterns: ['/build', '/test-results', '/.mutants'],
  // Stryker would read tsconfig.json with TypeScript's former interface. Types are checked elsewhere.
  tsconfigFile: 'none',
  disableTypeChecks: false,
  concurrency: 1,
};
