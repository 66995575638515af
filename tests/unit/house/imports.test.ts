import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { arrowsUp, circles, floors, forbiddenImports, house, importsOf } from '../../house/imports.mjs';

const root = fileURLToPath(new URL('../../..', import.meta.url));
const lint = path.join(root, 'tests/house/imports.mjs');

/** Every edge the table of rooms forbids, as a newcomer would write it. */
const forbidden = [
  ['reasoner/words/astray.ts', "import { openStore } from '../../db/index.ts';"],
  ['reasoner/words/astray.ts', "import type { Vocabulary } from '../../db/answers.ts';"],
  ['reasoner/words/astray.ts', "import { contract } from '../../electron/bridge/contract.ts';"],
  ['reasoner/words/astray.ts', "import { App } from '../../renderer/App.tsx';"],
  ['reasoner/words/astray.ts', "import { readFileSync } from 'node:fs';"],
  ['reasoner/words/astray.ts', "import { createHash } from 'crypto';"],
  ['reasoner/words/astray.ts', "import { z } from 'zod';"],
  ['reasoner/words/astray.ts', "import type { z } from 'zod';"],
  ['db/graph/astray.ts', "import { compileAtlas } from '../../reasoner/index.ts';"],
  ['db/graph/astray.ts', "import { type Part } from '../../reasoner/index.ts';"],
  ['db/graph/astray.ts', "import { contract } from '../../electron/bridge/contract.ts';"],
  ['db/graph/astray.ts', "import type { Bridge } from '../../electron/bridge/contract.ts';"],
  ['db/graph/astray.ts', "import { app } from 'electron';"],
  ['db/graph/astray.ts', "import { words } from '../../renderer/bridge/words.ts';"],
  ['electron/desk/astray.ts', "import { App } from '../../renderer/App.tsx';"],
  ['electron/desk/astray.ts', "import sqlite3 from 'sqlite3';"],
  ['electron/desk/astray.ts', "import { drizzle } from 'drizzle-orm/sqlite-proxy';"],
  ['electron/hosts/electron/preload/astray.ts', "import { contract } from '../../../bridge/contract.ts';"],
  ['electron/hosts/electron/preload/astray.ts', "import { readFileSync } from 'node:fs';"],
  ['electron/hosts/loopback/page/astray.ts', "import { openStore } from '../../../../db/index.ts';"],
  ['electron/hosts/loopback/page/astray.ts', "import { Gate } from '../gate.ts';"],
  ['renderer/atlas/astray.ts', "import { openStore } from '../../db/index.ts';"],
  ['renderer/look/astray.ts', "import type { Store } from '../../db/index.ts';"],
  ['renderer/look/astray.ts', "import { compileAtlas } from '../../reasoner/index.ts';"],
  ['renderer/look/astray.ts', "import { contract } from '../../electron/bridge/contract.ts';"],
  ['renderer/look/astray.tsx', "import type { Desk } from '../../electron/desk/open-desk.ts';"],
  ['renderer/look/astray.ts', "import { ipcRenderer } from 'electron';"],
  ['renderer/look/astray.ts', "import { readFile } from 'node:fs/promises';"],
  ['renderer/look/astray.ts', "import sqlite3 from 'sqlite3';"],
] as const;

describe('which room may import which', () => {
  let copy: string;
  beforeAll(() => {
    copy = mkdtempSync(path.join(tmpdir(), 'kinplate-house-'));
    for (const room of ['reasoner', 'db', 'electron', 'renderer', 'seed-data'])
      cpSync(path.join(root, room), path.join(copy, room), { recursive: true, filter: (from) => !/\.(csv|json|sqlite)$/.test(from) });
  });
  afterAll(() => rmSync(copy, { recursive: true, force: true }));

  const runLint = () => spawnSync(process.execPath, [lint, copy], { encoding: 'utf8' });

  test('[R1] the house as it stands keeps its own rule', () => {
    expect(runLint().stderr).toBe('');
    expect(execFileSync(process.execPath, [lint, copy], { encoding: 'utf8' })).toContain('Every room imports only what it may');
  });

  test.each(forbidden)('[R1] %s may not hold: %s', (file, line) => {
    expect(forbiddenImports(file, `// A file that does what its room may not.\n${line}\n`)).toEqual([
      expect.stringContaining(`${file}:2:`),
    ]);
  });

  test('[R1] npm run lint fails for a house with such files in it, naming each', () => {
    const files = forbidden.map(([file, line], number) => [file.replace('astray', `astray-${number}`), line] as const);
    for (const [file, line] of files) {
      mkdirSync(path.dirname(path.join(copy, file)), { recursive: true });
      writeFileSync(path.join(copy, file), `${line}\n`);
    }
    try {
      const answer = runLint();
      for (const [file] of files) expect(answer.stderr).toContain(`${file}:1: `);
      expect(answer.stderr.trim().split('\n')).toHaveLength(files.length);
      expect(answer.status).toBe(1);
    } finally {
      for (const [file] of files) rmSync(path.join(copy, file));
    }
  });

  test.each([
    ['export … from', "export { compileAtlas } from '../reasoner/index.ts';"],
    ['export * from', "export * from '../reasoner/index.ts';"],
    ['import() in code', "export const late = () => import('../reasoner/index.ts');"],
    ['import() of a computed address', 'export const late = (file: string) => import(file);'],
    ['a bare import for its effects', "import '../reasoner/index.ts';"],
    ['import = require', "import reasoner = require('../reasoner/index.ts');"],
    ['require', "export const late = require('../reasoner/index.ts');"],
    ['import { type … }, which still runs the module', "import { type Part } from '../reasoner/index.ts';"],
  ])('[R1] a value cannot slip through by %s', (_way, line) => {
    expect(forbiddenImports('renderer/astray.ts', line)).toHaveLength(1);
  });

  test.each([
    ['renderer/fine.ts', "import type { Answer } from '../reasoner/index.ts';"],
    ['renderer/fine.ts', "export type { Answer } from '../reasoner/index.ts';"],
    ['renderer/fine.ts', "export type Late = import('../reasoner/index.ts').Answer;"],
    ['renderer/fine.ts', "import type { Bridge } from '../electron/bridge/contract.ts';"],
    ['renderer/fine.tsx', "import { useState } from 'react'; import { createRoot } from 'react-dom/client';"],
    ['db/fine.ts', "import type { Atlas } from '../reasoner/index.ts'; import { z } from 'zod'; import fs from 'node:fs';"],
    ['electron/desk/fine.ts', "import { openStore } from '../../db/index.ts'; import { answer } from '../../reasoner/index.ts';"],
    ['electron/hosts/electron/fine.ts', "import { app } from 'electron';"],
    ['reasoner/unit/fine.ts', "import { every } from '../truth.ts';"],
    ['reasoner/fine.ts', '// import { z } from "zod";\nexport const text = "import x from \'zod\'";'],
  ])('[R1] what a room may do is left alone: %s with %s', (file, line) => {
    expect(forbiddenImports(file, line)).toEqual([]);
  });

  test('[R1] only types cross from the reasoner to the store and the window', () => {
    expect(house.db?.values).not.toContain('reasoner');
    expect(house.renderer?.values).not.toContain('reasoner');
    expect(house.reasoner).toEqual({ values: ['reasoner'], types: [] });
  });

  test('[R1] an import is found with its line and whether it brings values', () => {
    expect(importsOf('renderer/x.ts', "\nimport type { A } from './a.ts';\nimport { b } from './b.ts';\n")).toEqual([
      { specifier: './a.ts', typesOnly: true, line: 2 },
      { specifier: './b.ts', typesOnly: false, line: 3 },
    ]);
  });

  test('[R1] a floor may import from itself and from below, types too; not from above, nor be on no floor', () => {
    expect(arrowsUp('reasoner/fits/astray.ts', "\nimport type { Unit } from '../unit/unit.ts';")).toEqual([
      'reasoner/fits/astray.ts:2: reasoner/fits stands below reasoner/unit and may not import ../unit/unit.ts',
    ]);
    expect(arrowsUp('reasoner/ids.ts', "export type { Unit } from './unit/unit.ts';")).toHaveLength(1);
    expect(arrowsUp('reasoner/fits/fine.ts', "import { f } from './work/f.ts'; import type { Part } from '../atlas/atlas.ts';")).toEqual(
      [],
    );
    expect(arrowsUp('reasoner/attic/astray.ts', '')).toEqual([expect.stringContaining('reasoner/attic is on no floor')]);
    for (const [room, order] of Object.entries(floors)) expect(new Set(order).size, room).toBe(order.length);
  });

  test('[R1] files that import one another in a circle are found, however long it is, and by types alone', () => {
    const sources = new Map([
      ['db/a.ts', "import type { B } from './b.ts';"],
      ['db/b.ts', "export * from './in/c.ts';"],
      ['db/in/c.ts', "import { a } from '../a.ts'; import { d } from './d.ts';"],
      ['db/in/d.ts', "import { z } from 'zod';"],
      ['db/own.ts', "import type { Own } from './own.ts';"],
    ]);
    expect(circles(sources)).toEqual([
      'import each other in a circle: db/a.ts, db/b.ts, db/in/c.ts',
      'import each other in a circle: db/own.ts',
    ]);
    sources.set('db/in/c.ts', '');
    sources.set('db/own.ts', '');
    expect(circles(sources)).toEqual([]);
  });
});
