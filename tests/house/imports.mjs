// Which room may import which, which floor of a room stands on which, and that nothing runs in a circle, as rules that are run: `npm run lint`.
// Biome's restricted imports cannot tell `import type` from `import`, and half of these rules turn on it.
import { readdirSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseSync, Visitor } from 'vite';

/**
 * For each room: the paths it may import values from, and beside those the paths it may import types from.
 * `node:` stands for Node's own modules. Everything else that is no relative path is a package, by name.
 */
export const house = {
  reasoner: { values: ['reasoner'], types: [] },
  db: {
    values: ['db', 'reasoner/plain', 'node:', 'drizzle-orm', 'fflate', 'papaparse', 'saxen', 'sqlite3', 'write-excel-file', 'zod'],
    types: ['reasoner'],
  },
  electron: { values: ['electron', 'db', 'reasoner', 'node:', 'pdfkit', 'ts-fsrs', 'zod', '@electron'], types: [] },
  'electron/hosts/electron/preload': { values: ['@electron'], types: ['electron/bridge'] },
  'electron/hosts/loopback/page': { values: ['electron/bridge/reply.ts'], types: ['electron/bridge'] },
  renderer: {
    values: [
      'renderer',
      // Leaf helpers, open to every room.
      'reasoner/plain',
      // One layout for the window and for paper; it imports nothing but types.
      'reasoner/why/conflict-graph.ts',
      '@fontsource/barlow',
      '@fontsource/barlow-semi-condensed',
      'cytoscape',
      'react',
      'react-dom',
    ],
    types: ['electron/bridge', 'db/answers.ts', 'reasoner'],
  },
  'seed-data': { values: ['seed-data', 'node:', 'papaparse'], types: ['reasoner', 'db'] },
};

/**
 * The floors of a room, from the ground up: its folders and the files that stand in it by themselves. Each may import, types too, only from itself and from what stands
 * below it. The door of a room stands on top.
 */
export const floors = {
  reasoner: [
    'ids.ts',
    'truth.ts',
    'sheet',
    'plain',
    'atlas',
    'algebra',
    'fits',
    'answer',
    'compile',
    'grammar',
    'plate',
    'unit',
    'words',
    'slips',
    'names',
    'why',
    'verdict',
    'odds',
    'builds',
    'listing',
    'apart',
    'key',
    'report',
    'listings',
    'cases',
    'changes',
    'drills',
    'samples',
    'index.ts',
  ],
  db: [
    'plain',
    'trouble.ts',
    // What a case and what was learnt are, as data; the rest of the shop stands on it.
    'shop/case.ts',
    'shop/learning.ts',
    'shop/samples.ts',
    'shop/settings.ts',
    'shop/stock.ts',
    // What a version and a backup are; what makes them stands higher.
    'driver/version.ts',
    'backups/backup.ts',
    // What edits of the atlas and a change of it are, as data.
    'edits/seen.ts',
    // What a key and a signer are, as data; what makes and reads them stands higher.
    'signing/keyring.ts',
    // What a held pack is, likewise.
    'packs/held-pack.ts',
    // What of a pack's words stands under an id of the atlas, as data.
    'packs/mapped-word.ts',
    'answers.ts',
    // What a table's columns may be taken for, as data that is kept.
    'tables/column-use.ts',
    'schema.ts',
    'migrations',
    'driver',
    // Rows out of pages, without SQLite; pure.
    'salvage',
    'read',
    'photos',
    'sheets',
    'atlas',
    'changes',
    'graph',
    'signing',
    'packs',
    'edits',
    'shop',
    // Spreadsheets in and out.
    'tables',
    'backups',
    'store',
    'mend',
    'index.ts',
  ],
  electron: ['bridge', 'print', 'desk', 'command-line', 'hosts', 'start'],
  renderer: [
    'route',
    'bridge',
    'values',
    'look',
    'drawings',
    'glossary',
    'bench',
    'graph',
    'told',
    'edit',
    'samples',
    'lists',
    'prices',
    'atlas',
    'apart',
    'cases',
    'key',
    'listing',
    'odds',
    'open',
    'verdict',
    'plate',
    'sheet',
    'build',
    'retold',
    'shelf',
    'backups',
    'settings',
    'stock',
    'number',
    'packs',
    'history',
    'report',
    'tree',
    'drills',
    'listings',
    'table',
    'help',
    'guided',
    'unknown',
    'App.tsx',
    'main.tsx',
  ],
};

/** The floor of a file, counted from the ground; null where its room has none. A file named by itself stands where it is named, not where its folder does. */
const floorOf = (file) => {
  const [room, ...rest] = file.split('/');
  const order = floors[room];
  if (order === undefined) return null;
  const place = order.includes(rest.join('/')) ? rest.join('/') : rest[0];
  return { room, place, at: order.indexOf(place) };
};

/** What a file imports from a higher floor of its own room, or from none that is named, each as a line to print. */
export const arrowsUp = (file, text) => {
  const from = floorOf(file);
  if (from === null || outside.test(file)) return [];
  if (from.at < 0) return [`${file}: ${from.room}/${from.place} is on no floor; give it one in tests/house/imports.mjs`];
  return importsOf(file, text).flatMap(({ specifier, line }) => {
    const to = floorOf(targetOf(file, specifier));
    if (to === null || to.room !== from.room || to.at < 0 || to.at <= from.at) return [];
    return [`${file}:${line}: ${from.room}/${from.place} stands below ${to.room}/${to.place} and may not import ${specifier}`];
  });
};

/** Files that import one another in a circle, types too, each circle as a line to print. `sources` is each file's text. */
export const circles = (sources) => {
  const arrows = new Map(
    [...sources].map(([file, text]) => [
      file,
      importsOf(file, text)
        .map(({ specifier }) => targetOf(file, specifier))
        .filter((target) => sources.has(target)),
    ]),
  );
  // Tarjan, "Depth-first search and linear graph algorithms", SIAM J. Comput. 1 (1972).
  const found = [];
  const numbers = new Map();
  const open = [];
  const visit = (file) => {
    const number = numbers.size;
    numbers.set(file, number);
    open.push(file);
    let lowest = number;
    for (const target of arrows.get(file)) {
      if (!numbers.has(target)) lowest = Math.min(lowest, visit(target));
      else if (open.includes(target)) lowest = Math.min(lowest, numbers.get(target));
    }
    if (lowest === number) {
      const together = open.splice(open.indexOf(file));
      if (together.length > 1 || arrows.get(file).includes(file)) found.push(together.sort());
    }
    return lowest;
  };
  for (const file of arrows.keys()) if (!numbers.has(file)) visit(file);
  return found.sort().map((files) => `import each other in a circle: ${files.join(', ')}`);
};

/** Configuration that sits in a room but runs in a build tool. */
const outside = /(^|\/)vite\.config\.ts$/;

const roomOf = (file) => {
  const rooms = Object.keys(house).filter((room) => file.startsWith(`${room}/`));
  return rooms.sort((a, b) => b.length - a.length)[0] ?? null;
};

/** Where an import leads: a path from the project's folder, `node:`, or a package's name (`@electron` for Electron, beside the room of that name). */
const targetOf = (file, specifier) => {
  if (specifier.startsWith('.')) return path.posix.normalize(path.posix.join(path.posix.dirname(file), specifier));
  if (specifier.startsWith('/')) return specifier;
  if (specifier.startsWith('node:') || builtinModules.includes(specifier)) return 'node:';
  const name = specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');
  return name === 'electron' ? '@electron' : name;
};

const within = (target, places) => places.some((place) => target === place || target.startsWith(`${place}/`));

/** Every import of a file: its specifier, line, and whether only types come through it. */
export const importsOf = (file, text) => {
  const parsed = parseSync(file, text, { sourceType: 'module', lang: file.endsWith('x') ? 'tsx' : 'ts' });
  if (parsed.errors.length > 0) throw new Error(`${file}: ${parsed.errors[0].message}`);
  const found = [];
  const add = (source, typesOnly, at) => found.push({ specifier: source, typesOnly, line: text.slice(0, at).split('\n').length });
  new Visitor({
    ImportDeclaration: (node) => add(node.source.value, node.importKind === 'type', node.start),
    ExportAllDeclaration: (node) => add(node.source.value, node.exportKind === 'type', node.start),
    ExportNamedDeclaration: (node) => node.source && add(node.source.value, node.exportKind === 'type', node.start),
    // An import whose address is computed cannot be judged, so it is not allowed at all.
    ImportExpression: (node) => add(node.source.type === 'Literal' ? node.source.value : '(computed)', false, node.start),
    TSImportType: (node) => add(node.source?.value ?? node.argument?.literal?.value ?? '(computed)', true, node.start),
    TSImportEqualsDeclaration: (node) =>
      node.moduleReference.type === 'TSExternalModuleReference' &&
      add(node.moduleReference.expression.value, node.importKind === 'type', node.start),
    CallExpression: (node) =>
      node.callee.type === 'Identifier' &&
      node.callee.name === 'require' &&
      add(node.arguments[0]?.type === 'Literal' ? node.arguments[0].value : '(computed)', false, node.start),
  }).visit(parsed.program);
  return found;
};

/** The imports of one file that its room does not allow, each as a line to print. */
export const forbiddenImports = (file, text) => {
  const room = roomOf(file);
  if (room === null || outside.test(file)) return [];
  const { values, types } = house[room];
  return importsOf(file, text).flatMap(({ specifier, typesOnly, line }) => {
    const target = targetOf(file, specifier);
    if (within(target, values)) return [];
    if (within(target, types)) return typesOnly ? [] : [`${file}:${line}: ${room}/ may take only types from ${specifier}`];
    // What lies beside a file in its own subroom (electron/hosts/electron/preload/…) is the subroom's own.
    if (target.startsWith(`${room}/`)) return [];
    return [`${file}:${line}: ${room}/ may not import ${specifier}`];
  });
};

/** All TypeScript of all rooms below `root`: path and text. */
const sourcesBelow = (root) =>
  new Map(
    [...new Set(Object.keys(house).map((room) => room.split('/')[0]))].flatMap((room) => {
      let names;
      try {
        names = readdirSync(path.join(root, room), { recursive: true });
      } catch {
        return [];
      }
      return names
        .map((name) => `${room}/${name.split(path.sep).join('/')}`)
        .filter((file) => /\.(ts|tsx|mts)$/.test(file) && !file.endsWith('.d.ts'))
        .map((file) => [file, readFileSync(path.join(root, file), 'utf8')]);
    }),
  );

/** Everything the rules find wrong below `root`, each as a line to print. */
export const forbiddenBelow = (root) => {
  const sources = sourcesBelow(root);
  return [...[...sources].flatMap(([file, text]) => [...forbiddenImports(file, text), ...arrowsUp(file, text)]), ...circles(sources)];
};

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const root = path.resolve(process.argv[2] ?? fileURLToPath(new URL('../..', import.meta.url)));
  const forbidden = forbiddenBelow(root);
  for (const line of forbidden) console.error(line);
  if (forbidden.length > 0) process.exit(1);
  console.log('Every room imports only what it may.');
}
