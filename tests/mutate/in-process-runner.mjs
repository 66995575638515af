import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import vm from 'node:vm';
import { build } from 'vite';
import { newSuite } from './suite.mjs';

/** Beside the changed code: what each test took. */
const timesFile = 'times-of-tests.json';

/**
 * Stryker's test runner for the reasoner. The reasoner is pure, so nothing needs a process of its own: each test file is bundled once with all it imports, and
 * for every mutant the bundles that reach it are evaluated anew, module state and all, and their tests run one after another until one fails.
 * That is some ten times quicker than starting a worker and importing three hundred modules for each.
 */
class InProcessRunner {
  static inject = ['options'];
  #files = [];
  #asked;

  constructor(options) {
    this.#asked = options.inProcess;
  }

  capabilities() {
    return { reloadEnvironment: true };
  }

  async init() {
    const root = process.cwd();
    globalThis.__stryker__ ??= {};
    const names = this.#asked.folders.flatMap((folder) =>
      readdirSync(path.join(root, folder))
        .filter((name) => name.endsWith('.test.ts') && this.#asked.only?.includes(name.slice(0, -'.test.ts'.length)) !== false)
        .map((name) => `${folder}/${name}`),
    );
    for (const name of names.filter((one) => !this.#asked.leave.some((left) => one === `tests/unit/${left}.test.ts`)))
      this.#files.push({ name, script: await bundled(root, name) });
    // A worker that takes the place of one that hung was not there when the times were taken.
    if (!existsSync(timesFile)) return;
    const known = JSON.parse(readFileSync(timesFile, 'utf8'));
    for (const file of this.#files) Object.assign(file, known[file.name]);
    this.#quickestFirst();
  }

  /** Most changes fail many tests: the quickest are asked first. */
  #quickestFirst() {
    this.#files.sort((a, b) => a.took - b.took);
  }

  async dryRun() {
    const state = globalThis.__stryker__;
    state.mutantCoverage = { static: {}, perTest: {} };
    const tests = [];
    for (const file of this.#files) {
      const begun = performance.now();
      const { tests: titled } = await read(file);
      file.took = performance.now() - begun;
      file.times = {};
      // What an atlas needs is made when first asked for and kept, and belongs to every test that asks: so each test is read anew, and reaches all it rests on.
      for (const [place, { name }] of titled.entries()) {
        if (this.#asked.without !== null && name.includes(this.#asked.without)) continue;
        state.currentTestId = `${file.name} itself`;
        const suite = await read(file);
        const test = suite.tests[place];
        const itself = state.mutantCoverage.perTest[state.currentTestId] ?? {};
        delete state.mutantCoverage.perTest[state.currentTestId];
        const id = `${file.name}: ${test.name}`;
        state.currentTestId = id;
        const started = performance.now();
        const failure = (await failureOf(test.run)) ?? (await failureOf(suite.end));
        const covered = state.mutantCoverage.perTest[id] ?? {};
        for (const [mutant, times] of Object.entries(itself)) covered[mutant] = (covered[mutant] ?? 0) + times;
        state.mutantCoverage.perTest[id] = covered;
        const timeSpentMs = performance.now() - started;
        file.took += timeSpentMs;
        file.times[test.name] = timeSpentMs;
        const found = { id, name: id, timeSpentMs, fileName: path.resolve(file.name) };
        tests.push(failure === null ? { ...found, status: 0 } : { ...found, status: 1, failureMessage: failure });
      }
    }
    state.currentTestId = undefined;
    this.#quickestFirst();
    writeFileSync(timesFile, JSON.stringify(Object.fromEntries(this.#files.map(({ name, took, times }) => [name, { took, times }]))));
    return { status: 'complete', tests, mutantCoverage: state.mutantCoverage };
  }

  async mutantRun({ activeMutant, testFilter, hitLimit }) {
    const state = globalThis.__stryker__;
    state.activeMutant = activeMutant.id;
    state.hitCount = hitLimit === undefined ? undefined : 0;
    state.hitLimit = hitLimit;
    const wanted = testFilter === undefined ? null : new Set(testFilter);
    let ran = 0;
    const overLimit = () => hitLimit !== undefined && state.hitCount > hitLimit;
    try {
      for (const file of this.#files) {
        const here = wanted === null ? null : [...wanted].filter((id) => id.startsWith(`${file.name}: `));
        if (here !== null && here.length === 0) continue;
        let suite;
        try {
          suite = await read(file);
        } catch (error) {
          if (overLimit()) return { status: 'timeout', reason: 'Hit limit reached' };
          return { status: 'killed', killedBy: here ?? [`${file.name}: `], failureMessage: String(error), nrOfTests: ran + 1 };
        }
        const killed = (id, failureMessage) => ({ status: 'killed', killedBy: [id], failureMessage, nrOfTests: ran });
        let ended = null;
        for (const { name, run } of suite.tests.toSorted((a, b) => file.times[a.name] - file.times[b.name])) {
          const id = `${file.name}: ${name}`;
          if (wanted !== null && !wanted.has(id)) continue;
          ran += 1;
          const failure = await failureOf(run);
          if (failure === null && !overLimit()) continue;
          ended = overLimit() ? { status: 'timeout', reason: 'Hit limit reached' } : killed(id, failure);
          break;
        }
        const failure = await failureOf(suite.end);
        if (ended !== null) return ended;
        if (failure !== null) return killed(here?.[0] ?? `${file.name}: `, failure);
      }
      return { status: 'survived', nrOfTests: ran };
    } finally {
      state.activeMutant = undefined;
    }
  }
}

export const strykerPlugins = [{ kind: 'TestRunner', name: 'in-process', injectableClass: InProcessRunner }];

/** One test file with everything of the project it imports, as the body of a function that may wait. Packages stay outside and are asked for. */
const bundled = async (root, name) => {
  const { output } = await build({
    configFile: false,
    root,
    logLevel: 'error',
    plugins: [{ name: 'where-it-stood', enforce: 'pre', transform: (code, id) => ({ code: placed(code, id), map: null }) }],
    build: { ssr: path.join(root, name), write: false, minify: false, rollupOptions: { output: { format: 'es', codeSplitting: false } } },
  });
  return vm.compileFunction(`return (async () => {\n${asked(output[0].code)}\n})();`, ['ask'], { filename: path.join(root, name) });
};

/** The bundler's own lines, `import … from "…"` and `export { … }`, as what a function can do. */
const asked = (code) =>
  code
    .replaceAll(/^import ("[^"]+");$/gm, 'ask($1);')
    .replaceAll(/^import \* as (\S+) from ("[^"]+");$/gm, 'const $1 = ask($2);')
    .replaceAll(/^import (\w+) from ("[^"]+");$/gm, 'const $1 = ask($2).default ?? ask($2);')
    .replaceAll(/^import (\{[^}]+\}) from ("[^"]+");$/gm, (_all, names, from) => `const ${names.replaceAll(' as ', ': ')} = ask(${from});`)
    .replaceAll(
      /^import (\w+), (\{[^}]+\}) from ("[^"]+");$/gm,
      (_all, name, names, from) =>
        `const ${name} = ask(${from}).default ?? ask(${from}), ${names.replaceAll(' as ', ': ')} = ask(${from});`,
    )
    .replaceAll(/^export \{[^}]*\};$/gm, '');

/** Files find what stands beside them by where they are; a bundle is elsewhere. */
const placed = (code, id) =>
  code
    .replaceAll('import.meta.dirname', JSON.stringify(path.dirname(id)))
    .replaceAll('import.meta.url', JSON.stringify(pathToFileURL(id).href));

const required = createRequire(import.meta.url);

/** The tests of a file, everything it imports evaluated anew. */
const read = async ({ script }) => {
  const suite = newSuite();
  await script((id) => (id === 'vitest' ? suite.module : required(id)));
  return suite;
};

const failureOf = async (run) => {
  try {
    await run();
    return null;
  } catch (error) {
    return error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  }
};
