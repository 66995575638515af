const mutated = process.env.KINPLATE_MUTATE ?? '';
const kept = `.mutants/${mutated.replace(/\/\*\*.*$/, '').replaceAll('/', '-')}`;

/** What is kept of those who learn is asked of by the drills. */
const learning = {
  folders: ['tests/unit/db', 'tests/unit/electron'],
  only: ['clock-set-back', 'drills', 'learning', 'two-writers'],
  without: 'by turns a seed decides',
};

/** The tests of what may be changed: folders, and files in them that are left out, or those alone that are asked; without those whose titles say so. */
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
  // Those of each folder: tests of db fill an atlas each.
  'db/sheets': {
    folders: ['tests/unit/db'],
    only: ['entry-files', 'parcel', 'plausible', 'read-entry', 'sheet-tables', 'sheets', 'shop-files'],
  },
  'db/shop': {
    folders: ['tests/unit/db'],
    only: ['cases', 'cases-csv', 'clock-set-back', 'kept-told', 'sheets', 'shop-files', 'shop-word', 'store', 'two-writers'],
    // Hundreds of saves for every change.
    without: 'by turns a seed decides',
  },
  'db/shop/parcel': { folders: ['tests/unit/db'], only: ['parcel', 'unzip'] },
  'db/shop/unit-numbers.ts': { folders: ['tests/unit/db'], only: ['cases', 'unit-numbers'] },
  'db/shop/learning.ts': learning,
  'db/shop/learning-shelf.ts': learning,
  // Whole mendings, and those stopped at a step, are asked of the file alone that goes from step to step.
  'db/mend': { folders: ['tests/unit/db/mend'], leave: ['db/mend/mend', 'db/mend/mend-stopped', 'db/mend/salvage'] },
  'db/mend/mend.ts': { folders: ['tests/unit/db/mend'] },
  'db/salvage': { folders: ['tests/unit/db/mend'] },
};
/** The longest name a folder or file lies under. */
const room = Object.keys(rooms)
  .filter((name) => `${mutated}/`.startsWith(`${name}/`))
  .at(-1);

/** Set by mutate.mjs: one folder or file. Each change of it is run against the tests that reach it. */
export default {
  mutate: [mutated],
  plugins: ['./tests/mutate/in-process-runner.mjs'],
  testRunner: 'in-process',
  inProcess: { only: null, leave: [], without: null, ...rooms[room] },
  dryRunTimeoutMinutes: 30,
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
