import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Pack } from '../../../db/atlas/pack.ts';
import { emptyAtlas } from '../../../db/atlas/pack.ts';
import type { PackChecked, PackFinding } from '../../../db/index.ts';
import { canonicalText } from '../../../db/packs/canonical.ts';
import { checkFiles } from '../../../db/packs/check-pack.ts';
import { findingLine } from '../../../db/packs/each-once.ts';
import { inspected, readFiles } from '../../../db/packs/read.ts';
import { filesOf, type PackFiles } from '../../../db/packs/read-files.ts';
import { askedForPacks } from '../../../electron/desk/open-house.ts';
import { Dice } from '../../oracle/dice.ts';

/** A pack in memory, file by file. */
type Files = Map<string, Buffer>;

/** The files of a folder. */
/** Nothing stands beside these packs. */
const nothing = async () => emptyAtlas;

export const packIn = (folder: string): ReadonlyMap<string, Buffer> =>
  new Map(
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .map((file) => file.split('\\').join('/'))
      .filter((file) => /\.(json|csv)$/.test(file))
      .sort()
      .map((file) => [file, readFileSync(join(folder, file))]),
  );

const signs = [
  '',
  ',',
  '"',
  '\n',
  '\r\n',
  ';',
  '|',
  '\u0000',
  '\u001b[2J',
  '\u009b',
  '\u2028',
  '\u202e',
  '\ud83d\ude00',
  'é',
  '0',
  '-',
  '1e400',
  '}',
  ']',
  '{',
  '[',
  ':',
  '\\',
  '\\u0007',
  '\\ud800',
  '__proto__',
  '9'.repeat(30),
];

const mutations: readonly ((files: Files, dice: Dice) => void)[] = [
  // Bytes: another, one more, one less.
  (files, dice) => {
    const [file, bytes] = anyFile(files, dice);
    const at = dice.whole(0, Math.max(0, bytes.length - 1));
    const put = dice.often(70) ? Buffer.from([dice.whole(0, 255)]) : Buffer.from(dice.one(signs));
    files.set(file, Buffer.concat([bytes.subarray(0, at), put, bytes.subarray(at + dice.whole(0, 2))]));
  },
  // Broken off.
  (files, dice) => {
    const [file, bytes] = anyFile(files, dice);
    files.set(file, bytes.subarray(0, dice.whole(0, bytes.length)));
  },
  (files, dice) => void files.delete(anyFile(files, dice)[0]),
  inTable((rows, dice) => {
    const [row, other] = [dice.one(rows), dice.one(rows)];
    const [at, to] = [dice.whole(0, row.length - 1), dice.whole(0, other.length - 1)];
    [row[at], other[to]] = [other[to] ?? '', row[at] ?? ''];
  }),
  inTable((rows, dice) => void rows.splice(dice.whole(1, rows.length), 0, [...dice.one(rows)])),
  inTable((rows, dice) => {
    const at = dice.whole(0, (rows[0]?.length ?? 1) - 1);
    for (const row of dice.often(50) ? rows : [dice.one(rows)]) row.splice(at, 1);
  }),
  inTable((rows, dice) => void rows.splice(dice.whole(0, rows.length - 1), 1)),
  // What a tired hand does, and leaves the pack sound: two cells of a column change places, a figure slips, a part is copied.
  ...Array<ReturnType<typeof inTable>>(2).fill(
    inTable((rows, dice) => {
      const [row, other] = [dice.one(rows.slice(1)), dice.one(rows.slice(1))];
      const at = dice.whole(1, row.length - 1);
      [row[at], other[at]] = [other[at] ?? '', row[at] ?? ''];
    }),
  ),
  ...Array<ReturnType<typeof inTable>>(3).fill(
    inTable((rows, dice) => {
      const figures = rows.flatMap((row) => row.map((cell, at) => ({ row, at, size: Number(cell) }))).filter(({ size }) => size > 0);
      if (figures.length === 0) return;
      const { row, at, size } = dice.one(figures);
      row[at] = String(Number((size * dice.one([25.4, 1 / 25.4, 10, 0.1, 0.001, 1.01])).toPrecision(6)));
    }),
  ),
  (files, dice) => {
    const copied = (file: string, change: (rows: readonly string[]) => readonly string[]): void => {
      const rows = (files.get(file) ?? Buffer.alloc(0)).toString('utf8').trimEnd().split('\n');
      files.set(file, Buffer.from([...rows, ...change(rows.slice(1))].join('\n')));
    };
    let id = '';
    copied('parts.csv', (rows) => {
      const row = rows.length === 0 ? '' : dice.one(rows);
      id = row.split(',')[0] ?? '';
      return row === '' ? [] : [`${id}-copy${row.slice(id.length)}`];
    });
    copied('facts.csv', (rows) => rows.filter((row) => row.startsWith(`${id},`)).map((row) => `${id}-copy${row.slice(id.length)}`));
  },
  inTable((rows, dice) => {
    const row = dice.one(rows);
    row[dice.whole(0, row.length - 1)] = dice.one([
      ...signs,
      '?',
      'names',
      'H7',
      '-1',
      '0',
      '57.2',
      '5720',
      '1..0',
      '(blank)',
      'constructor',
    ]);
  }),
  inJson((holders, dice) => {
    const [a, b] = [dice.one(holders), dice.one(holders)];
    const held = a.of[a.key];
    a.of[a.key] = b.of[b.key];
    b.of[b.key] = held;
  }),
  inJson((holders, dice) => {
    const { of, key } = dice.one(holders);
    if (Array.isArray(of)) of.splice(Number(key), dice.often(50) ? 1 : 0, of[Number(key)]);
    else delete of[key];
  }),
  inJson((holders, dice) => {
    const { of, key } = dice.one(holders);
    of[key] = dice.one<unknown>([null, 0, -1, 1e308, '', [], {}, true, ...signs, 'tern-4', 'merrowby', 'constructor', '__proto__']);
  }),
];

const anyFile = (files: Files, dice: Dice): readonly [string, Buffer] => dice.one([...files]);

function inTable(change: (rows: string[][], dice: Dice) => void): (files: Files, dice: Dice) => void {
  return (files, dice) => {
    const tables = [...files].filter(([file]) => file.endsWith('.csv'));
    if (tables.length === 0) return;
    const [file, bytes] = dice.one(tables);
    const rows = bytes
      .toString('utf8')
      .split('\n')
      .map((row) => row.split(','));
    if (rows.length < 2) return;
    change(rows, dice);
    files.set(file, Buffer.from(rows.map((row) => row.join(',')).join('\n')));
  };
}

interface Holder {
  readonly of: Record<string, unknown>;
  readonly key: string;
}

function inJson(change: (holders: readonly Holder[], dice: Dice) => void): (files: Files, dice: Dice) => void {
  return (files, dice) => {
    const texts = [...files].filter(([file]) => file.endsWith('.json'));
    if (texts.length === 0) return;
    const [file, bytes] = dice.one(texts);
    let value: unknown;
    try {
      value = JSON.parse(bytes.toString('utf8'));
    } catch {
      return;
    }
    const holders: Holder[] = [];
    const walk = (of: unknown): void => {
      if (typeof of !== 'object' || of === null) return;
      for (const key of Object.keys(of)) {
        holders.push({ of: of as Record<string, unknown>, key });
        walk((of as Record<string, unknown>)[key]);
      }
    };
    walk(value);
    if (holders.length === 0) return;
    change(holders, dice);
    // A value may now hold itself.
    try {
      files.set(file, Buffer.from(JSON.stringify(value, null, dice.often(50) ? 2 : 0)));
    } catch {
      files.set(file, Buffer.from('[]'));
    }
  };
}

const filesIn = (files: ReadonlyMap<string, Buffer>): PackFiles => {
  const texts = filesOf('pack', new Map([...files.keys()].map((file) => [file, ''])));
  return {
    ...texts,
    read: async (file) => {
      await texts.read(file);
      return files.get(file) as Buffer;
    },
  };
};

export interface Mutated {
  readonly seed: number;
  readonly sound: boolean;
  readonly faults: number;
  readonly warnings: number;
  /** What is wrong with what was answered: nothing, where all is well. */
  readonly wrong: readonly string[];
}

/** One pack with a few mutations, by its seed: read, checked and looked at. What throws is wrong, too. */
export const mutatedPack = async (whole: ReadonlyMap<string, Buffer>, seed: number): Promise<Mutated> => {
  const dice = new Dice(seed);
  const files: Files = new Map(whole);
  for (let left = dice.one([1, 1, 1, 2, 2, 5]); left > 0; left -= 1) dice.one(mutations)(files, dice);
  const from = filesIn(files);
  try {
    const checked = await checkFiles(from, emptyAtlas, askedForPacks);
    const read = inspected(await readFiles(from, { ...askedForPacks, beside: nothing }, nothing), from.name);
    const wrong = [...wrongIn(checked, files)];
    if (read.ok !== checked.sound)
      wrong.push(`the check says ${checked.sound ? 'sound' : 'faults'}, reading says ${read.ok ? 'sound' : 'faults'}`);
    if (read.ok) wrong.push(...(await wrongAgain(read.value.pack)));
    return { seed, sound: checked.sound, faults: checked.faults.length, warnings: checked.warnings.length, wrong };
  } catch (error) {
    return { seed, sound: false, faults: 0, warnings: 0, wrong: [error instanceof Error ? (error.stack ?? error.message) : String(error)] };
  }
};

/** A sound pack is one that is written and read again as it is. */
const wrongAgain = async (pack: Pack): Promise<readonly string[]> => {
  const texts = canonicalText(pack);
  const again = inspected(await readFiles(filesOf('again', texts), { ...askedForPacks, beside: nothing }, nothing), 'again');
  if (!again.ok) return [`written and read again it has faults: ${again.trouble.sentence}`];
  const twice = canonicalText(again.value.pack);
  return [...texts].every(([file, text]) => twice.get(file) === text) ? [] : ['written and read again it says something else'];
};

function* wrongIn({ sound, sentence, faults, warnings }: PackChecked, files: ReadonlyMap<string, Buffer>): Generator<string> {
  if (sound !== (faults.length === 0)) yield 'sound with faults, or not without';
  const all: readonly PackFinding[] = [...faults, ...warnings];
  for (const text of [sentence, ...all.flatMap((one) => [one.sentence, one.place ?? '', findingLine(one as never)])])
    if (/[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\u202a-\u202e\u2066-\u2069]/u.test(text)) yield `a sign that would be obeyed: ${JSON.stringify(text)}`;
  const told = new Set<string>();
  for (const one of all) {
    const key = JSON.stringify([one.file, one.line, one.character, one.sentence]);
    if (told.has(key)) yield `said twice: ${key}`;
    told.add(key);
    if (one.many < 1 || one.also.length > one.many - 1) yield `${one.also.length} other places of ${one.many}`;
    for (const place of [one, ...one.also]) {
      const text = (files.get(place.file) ?? Buffer.alloc(0)).toString('utf8');
      // A table that is broken by CR alone is; in JSON they are space like any other.
      const lines = text.split(place.file.endsWith('.csv') && !text.includes('\n') ? '\r' : '\n').map((each) => each.replace(/\r$/, ''));
      if (place.line !== null && (place.line < 1 || place.line > Math.max(1, lines.length)))
        yield `line ${place.line} of ${lines.length} in ${place.file}`;
      const line = lines[(place.line ?? 1) - 1] ?? '';
      if (place.character !== null && (place.character < 1 || place.character > line.length + 1))
        yield `character ${place.character} of ${line.length} in ${place.file}, line ${place.line}: ${one.sentence}`;
    }
  }
}
