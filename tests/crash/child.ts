import { type ChildProcess, spawn } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { build } from 'vite';

const root = join(import.meta.dirname, '../..');
/** Inside node_modules, so that the built programs find sqlite3 and no build of the house sweeps them away. */
const out = join(root, 'node_modules/.cache/kinplate-crash');

/** Builds one program of tests/crash/programs for plain Node; the path of what was built. */
export const built = async (program: string): Promise<string> => {
  mkdirSync(out, { recursive: true });
  await build({
    root,
    configFile: false,
    logLevel: 'error',
    build: {
      ssr: join(import.meta.dirname, 'programs', `${program}.ts`),
      outDir: out,
      emptyOutDir: false,
      minify: false,
      rollupOptions: {
        output: { entryFileNames: `${program}-${process.pid}.mjs`, chunkFileNames: `${program}-${process.pid}-[hash].mjs` },
      },
    },
  });
  const path = join(out, `${program}-${process.pid}.mjs`);
  if (!existsSync(path)) throw new Error(`${path} was not built`);
  chmodSync(path, 0o644);
  process.once('exit', () => rmSync(path, { force: true }));
  return path;
};

export interface Running {
  readonly child: ChildProcess;
  /** Resolves with the first line that is one of these; rejects when the program ends before. */
  line(...wanted: readonly string[]): Promise<string>;
  /** Every line so far. */
  readonly lines: readonly string[];
  /** Resolves when the program has ended, with how. */
  readonly ended: Promise<{ readonly code: number | null; readonly signal: string | null }>;
}

/** Starts a built program. As root it can be started as an ordinary user, whom file permissions bind. */
export const start = (program: string, args: readonly string[], { ordinary = false } = {}): Running => {
  const nobody = ordinary && process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {};
  const child = spawn(process.execPath, [program, ...args], { stdio: ['ignore', 'pipe', 'inherit'], ...nobody });
  const lines: string[] = [];
  const waiting = new Set<() => void>();
  const reader = createInterface({ input: child.stdout });
  reader.on('line', (line) => {
    lines.push(line);
    for (const wake of waiting) wake();
  });
  const ended = new Promise<{ code: number | null; signal: string | null }>((resolve, reject) => {
    child.once('error', reject);
    child.once('close', (code, signal) => resolve({ code, signal }));
  });
  return {
    child,
    lines,
    ended,
    line: (...wanted) =>
      new Promise((resolve, reject) => {
        const look = (): void => {
          const found = lines.find((line) => wanted.includes(line));
          if (found === undefined) return;
          waiting.delete(look);
          resolve(found);
        };
        waiting.add(look);
        look();
        void ended.then(({ code, signal }) =>
          reject(new Error(`the program ended (${code ?? signal}) before it said ${wanted.join(' or ')}: ${lines.join(' | ')}`)),
        );
      }),
  };
};
