import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Connection } from '../../../../db/driver/connection.ts';
import { bytesOf, pagesOf } from '../../../../db/salvage/pages.ts';
import { type Layout, type SalvagedRow, salvage } from '../../../../db/salvage/salvage.ts';
import { committedIn } from '../../../../db/salvage/wal.ts';
import { freshConnection, freshFolder } from '../kit.ts';

const plain: Layout = { name: 'plain', kind: 'table', columns: ['n', 'text', 'bytes', 'real'], rowid: 'n' };
const keyed: Layout = { name: 'keyed', kind: 'index', columns: ['id', 'place', 'body'], rowid: null };

/** Two tables of rows of every size: some on their page, some on it and others, some of several megabytes never. */
const filled = async (pageSize: number, rows: number): Promise<{ readonly connection: Connection; readonly file: string }> => {
  const file = join(freshFolder(), 'rows.sqlite');
  const connection = await freshConnection(file);
  await connection.script(`pragma page_size = ${pageSize}; pragma auto_vacuum = none;
    create table plain (n integer primary key, text text, bytes blob, real real);
    create table keyed (id text, place integer, body text, primary key (id, place)) without rowid;`);
  await connection.transaction('immediate', async () => {
    for (let n = 0; n < rows; n += 1) {
      const size = (n * n * 7) % (pageSize * 3);
      await connection.run('insert into plain values (?, ?, ?, ?)', [
        n * 3 + 1,
        `text ${n} ü${'x'.repeat(size)}`,
        Buffer.alloc(size % 700, n % 256),
        n / 3,
      ]);
      await connection.run('insert into keyed values (?, ?, ?)', [
        `key ${n}`,
        [n, -n, n * 1000, n - 2 ** 31, 0, 1][n % 6],
        `${n}${'y'.repeat(size)}`,
      ]);
    }
  });
  return { connection, file };
};

const salvaged = (bytes: Buffer, wal: Buffer | null = null, looksLike: (name: string, row: SalvagedRow) => boolean = () => false) => {
  const read = salvage(pagesOf(bytesOf(bytes), wal), [plain, keyed], looksLike);
  const rowsOf = (name: string) => [...read.rowsOf(name)].map(({ row, whole, loose }) => ({ row, whole, loose }));
  return { plain: rowsOf('plain'), keyed: rowsOf('keyed'), read };
};
const all = async (connection: Connection) => ({
  plain: await connection.all('select * from plain order by n'),
  keyed: await connection.all('select * from keyed order by id, place'),
});

/** Entries of inner pages come before those below them. */
const sorted = (rows: readonly object[]): string[] => rows.map((row) => JSON.stringify(row).slice(0, 300)).sort();

const spoilt = (bytes: Buffer, page: number, pageSize: number): Buffer => {
  const copy = Buffer.from(bytes);
  copy.fill(0xff, (page - 1) * pageSize, page * pageSize);
  return copy;
};

describe('rows out of pages', () => {
  test.each([512, 1024, 4096, 65_536])('[P3] of a sound file with pages of %i bytes: every row as SQLite reads it', async (pageSize) => {
    const { connection, file } = await filled(pageSize, 200);
    const expected = await all(connection);
    await connection.close();
    const found = salvaged(readFileSync(file));
    expect(found.plain.map(({ row }) => row)).toEqual(expected.plain);
    expect(sorted(found.keyed.map(({ row }) => row))).toEqual(sorted(expected.keyed));
    expect([...found.plain, ...found.keyed].every(({ whole, loose }) => whole && !loose)).toBe(true);
    expect(found.read.isComplete('plain') && found.read.isComplete('keyed')).toBe(true);
  });

  test('[P3] numbers of every width, nothing, and empty text and bytes', async () => {
    const { connection, file } = await filled(4096, 0);
    const numbers = [0, 1, -1, 127, 128, -128, 32_767, -32_768, 8_388_607, -8_388_608, 2 ** 31 - 1, -(2 ** 31) + 1];
    for (const [n, place] of numbers.entries()) await connection.run('insert into keyed values (?, ?, ?)', [`n ${n}`, place, null]);
    await connection.script(
      `insert into keyed values ('wide', 140737488355327, ''), ('wider', 9007199254740991, ''), ('too wide', 9223372036854775807, '')`,
    );
    await connection.run('insert into plain values (?, ?, ?, ?)', [9, '', Buffer.alloc(0), -0.25]);
    await connection.close();
    const found = salvaged(readFileSync(file));
    expect(found.plain).toEqual([{ row: { n: 9, text: '', bytes: Buffer.alloc(0), real: -0.25 }, whole: true, loose: false }]);
    const places = new Map(found.keyed.map(({ row }) => [row.id, row.place]));
    expect(numbers.map((_, n) => places.get(`n ${n}`))).toEqual(numbers);
    expect([places.get('wide'), places.get('wider'), places.get('too wide')]).toEqual([
      140_737_488_355_327,
      9_007_199_254_740_991,
      undefined,
    ]);
    // What a number cannot hold is not a row that was read.
    expect(found.keyed.filter(({ whole }) => !whole).map(({ row }) => row.id)).toEqual(['too wide']);
  });

  test('[P3] columns added later: older rows have nothing in them', async () => {
    const { connection, file } = await filled(4096, 3);
    await connection.script('alter table keyed add column later text');
    await connection.run('insert into keyed values (?, ?, ?, ?)', ['new', 1, '', 'there']);
    await connection.close();
    const read = salvage(pagesOf(bytesOf(readFileSync(file)), null), [{ ...keyed, columns: [...keyed.columns, 'later'] }], () => false);
    const rows = [...read.rowsOf('keyed')].map(({ row }) => row.later);
    expect(rows.sort()).toEqual([null, null, null, 'there'].sort());
  });

  test.each([0, 1, 2, 3])(
    '[P3] whichever page is spoilt: what is given whole is as it was, the rest is known to be missing (part %i)',
    async (part) => {
      const pageSize = 4096;
      const { connection, file } = await filled(pageSize, 160);
      const expected = await all(connection);
      await connection.close();
      const bytes = readFileSync(file);
      const known = {
        plain: new Set(expected.plain.map((row) => JSON.stringify(row))),
        keyed: new Set(expected.keyed.map((row) => JSON.stringify(row))),
      };
      const looksLike = (name: string, row: SalvagedRow): boolean =>
        name === 'plain'
          ? /^text \d+ ü/.test(String(row.text)) && Buffer.isBuffer(row.bytes)
          : /^key \d+$/.test(String(row.id)) && /^\d+y*$/.test(String(row.body));
      for (let page = 1 + 3 * part; page <= bytes.length / pageSize; page += 12) {
        const found = salvaged(spoilt(bytes, page, pageSize), null, looksLike);
        for (const name of ['plain', 'keyed'] as const) {
          const whole = found[name].filter((one) => one.whole).map(({ row }) => JSON.stringify(row));
          for (const row of whole) expect(known[name].has(row), `page ${page}: ${row.slice(0, 60)}`).toBe(true);
          if (new Set(whole).size < known[name].size) expect(found.read.isComplete(name), `page ${page}, ${name}`).toBe(false);
          // One page never takes more than the rows that stand on it: far fewer than half of them, even at the root.
          expect(new Set(whole).size, `page ${page}, ${name}`).toBeGreaterThan(known[name].size * 0.8);
        }
      }
    },
  );

  test('[P3] what was deleted and stands on free pages is not taken for rows, unless the list of them is gone', async () => {
    const pageSize = 1024;
    const { connection, file } = await filled(pageSize, 300);
    await connection.run('delete from keyed where place > 3 or place < 0');
    const expected = await all(connection);
    const [root] = await connection.all<{ rootpage: number }>(`select rootpage from sqlite_schema where name = 'keyed'`);
    const [free] = await connection.all<{ freelist_count: number }>('pragma freelist_count');
    expect(free?.freelist_count).toBeGreaterThan(50);
    await connection.close();
    const bytes = spoilt(readFileSync(file), root?.rootpage ?? 0, pageSize);
    const looksLike = (_: string, row: SalvagedRow): boolean => /^key \d+$/.test(String(row.id));
    const live = new Set(expected.keyed.map((row) => JSON.stringify(row)));
    const found = salvaged(bytes, null, looksLike);
    expect(found.keyed.length).toBeGreaterThan(0);
    for (const { row, loose } of found.keyed) {
      expect(loose).toBe(true);
      expect(live.has(JSON.stringify(row))).toBe(true);
    }
    bytes.writeUInt32BE(0, 32);
    expect(salvaged(bytes, null, looksLike).keyed.length).toBeGreaterThan(found.keyed.length);
  });

  test('[P3] a spoilt list of free pages does not hide live ones', async () => {
    const pageSize = 1024;
    const { connection, file } = await filled(pageSize, 120);
    const [root] = await connection.all<{ rootpage: number }>(`select rootpage from sqlite_schema where name = 'keyed'`);
    await connection.close();
    const bytes = spoilt(readFileSync(file), root?.rootpage ?? 0, pageSize);
    const looksLike = (_: string, row: SalvagedRow): boolean => /^key \d+$/.test(String(row.id));
    const before = salvaged(bytes, null, looksLike).keyed.length;
    // A trunk that names every page: one is named twice, and one is none.
    bytes.writeUInt32BE(root?.rootpage ?? 0, 32);
    const trunk = ((root?.rootpage ?? 0) - 1) * pageSize;
    bytes.writeUInt32BE(0, trunk);
    bytes.writeUInt32BE(200, trunk + 4);
    for (let n = 0; n < 200; n += 1) bytes.writeUInt32BE(n === 199 ? 1 : n + 2, trunk + 8 + 4 * n);
    expect(salvaged(bytes, null, looksLike).keyed.length).toBe(before);
  });

  test('[P3] text that is no text any more, or has zeros in it, is not read as one', async () => {
    const { connection, file } = await filled(4096, 0);
    await connection.run('insert into keyed values (?, ?, ?)', ['one', 7, 'AAAAAAAA']);
    await connection.close();
    const bytes = readFileSync(file);
    const at = bytes.lastIndexOf('AAAAAAAA');
    for (const [byte, body] of [
      [0x41, 'AAAAAAAA'],
      [0, undefined],
      [0xff, undefined],
    ] as const) {
      bytes[at + 3] = byte;
      expect(salvaged(bytes).keyed.map(({ row, whole }) => [row.id, row.body, whole])).toEqual([['one', body, body !== undefined]]);
    }
  });

  test('[P3] a row that goes on past its end, or round in a circle, is not whole: one of its pages is not its own', async () => {
    const { connection, file } = await filled(4096, 0);
    await connection.run('insert into keyed values (?, ?, ?)', ['chain', 7, `${'A'.repeat(12_000)}END`]);
    await connection.close();
    const bytes = readFileSync(file);
    expect(salvaged(bytes).keyed.map(({ whole }) => whole)).toEqual([true]);
    const last = bytes.lastIndexOf('END') - (bytes.lastIndexOf('END') % 4096);
    expect(bytes.readUInt32BE(last)).toBe(0);
    for (const next of [2, last / 4096 + 1, 9999]) {
      bytes.writeUInt32BE(next, last);
      expect(salvaged(bytes).keyed.map(({ whole }) => whole)).toEqual([false]);
    }
  });

  test('[P3] a record whose values do not take just its length is none', async () => {
    const { connection, file } = await filled(4096, 0);
    await connection.run('insert into keyed values (?, ?, ?)', ['one', 7, 'AAAAAAAA']);
    await connection.close();
    const bytes = readFileSync(file);
    // Its head (§2.1): four bytes, text of three, a number of one byte, text of eight.
    const head = bytes.indexOf(Buffer.from([4, 19, 1, 29]));
    expect(salvaged(bytes).keyed).toHaveLength(1);
    for (const type of [27, 31]) {
      bytes[head + 3] = type;
      const { keyed: rows, read } = salvaged(bytes);
      expect(rows.filter(({ whole }) => whole)).toEqual([]);
      expect(read.isComplete('keyed')).toBe(false);
    }
  });

  test('[P3] bytes of any sort are read to the end without a fault', async () => {
    const { connection, file } = await filled(512, 60);
    await connection.close();
    const whole = readFileSync(file);
    let state = 7;
    const random = (): number => {
      state = (Math.imul(state, 1_103_515_245) + 12_345) & 0x7fffffff;
      return state / 0x7fffffff;
    };
    for (let run = 0; run < 300; run += 1) {
      const bytes = Buffer.from(whole);
      for (let hit = 0; hit < 40; hit += 1) bytes[Math.floor(random() * bytes.length)] = Math.floor(random() * 256);
      const { plain: first, keyed: second } = salvaged(bytes, null, () => true);
      expect(first.length + second.length).toBeGreaterThanOrEqual(0);
    }
    for (const none of [Buffer.alloc(0), Buffer.alloc(100, 1), Buffer.alloc(9000, 0x0d)]) expect(salvaged(none).plain).toEqual([]);
  });
});

describe('the journal beside a file', () => {
  const withJournal = async () => {
    const { connection, file } = await filled(4096, 40);
    await connection.script('pragma journal_mode = wal; pragma wal_autocheckpoint = 0;');
    await connection.run('update keyed set body = ? where place = 0', ['first change']);
    const afterFirst = readFileSync(`${file}-wal`).length;
    await connection.run('update keyed set body = ? where place = 0', ['second change']);
    const expected = await all(connection);
    return { bytes: readFileSync(file), wal: readFileSync(`${file}-wal`), afterFirst, expected };
  };

  test('[P3] what is committed in it stands in the place of what is in the file', async () => {
    const { bytes, wal, expected } = await withJournal();
    expect(sorted(salvaged(bytes, wal).keyed.map(({ row }) => row))).toEqual(sorted(expected.keyed));
    expect(sorted(salvaged(bytes).keyed.map(({ row }) => row))).not.toEqual(sorted(expected.keyed));
  });

  test('[P3] past the first frame that does not hold, nothing is taken; what was whole before it is', async () => {
    const { bytes, wal, afterFirst } = await withJournal();
    const bodies = (journal: Buffer): unknown[] => [
      ...new Set(
        salvaged(bytes, journal)
          .keyed.filter(({ row }) => row.place === 0)
          .map(({ row }) => row.body),
      ),
    ];
    const broken = Buffer.from(wal);
    broken[afterFirst + 24 + 100] = (broken[afterFirst + 24 + 100] ?? 0) ^ 1;
    expect(bodies(broken)).toEqual(['first change']);
    expect(bodies(wal.subarray(0, afterFirst + 500))).toEqual(['first change']);
    const none = Buffer.from(wal);
    none[9] = (none[9] ?? 0) ^ 1;
    expect(committedIn(none)).toBeNull();
    expect(committedIn(Buffer.alloc(10))).toBeNull();
    expect(committedIn(wal.subarray(0, 32))).toBeNull();
  });

  test('[P3] a transaction that was not finished is not taken', async () => {
    const { bytes, wal, afterFirst } = await withJournal();
    const frame = 24 + 4096;
    const frames = (wal.length - afterFirst) / frame;
    if (frames < 2) return expect(frames).toBe(1);
    const cut = wal.subarray(0, wal.length - frame);
    expect([
      ...new Set(
        salvaged(bytes, cut)
          .keyed.filter(({ row }) => row.place === 0)
          .map(({ row }) => row.body),
      ),
    ]).toEqual(['first change']);
  });
});
