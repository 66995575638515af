import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { Connection } from '../../../db/driver/connection.ts';
import { atlasOfBytes, bytesOfAtlas } from '../../../db/graph/atlas-bytes.ts';
import { keptReading } from '../../../db/graph/kept-reading.ts';
import type { Store, Version } from '../../../db/index.ts';
import type { Atlas } from '../../../reasoner/index.ts';
import { largerAtlas } from '../../bench/larger-atlas.ts';
import { randomCase } from '../../oracle/random-atlas.ts';
import { demoAtlas } from '../seed/demo-atlas.ts';
import { filledStore, freshFolder, freshStore, smallPack, valueIn } from './kit.ts';

const atOnce = async (): Promise<void> => undefined;

/** How many objects there are in it: what is said twice by one object counts once. */
const objectsIn = (value: unknown): number => {
  const seen = new Set<unknown>();
  const walk = (one: unknown): void => {
    if (typeof one !== 'object' || one === null || seen.has(one)) return;
    seen.add(one);
    for (const each of Object.values(one)) walk(each);
  };
  walk(value);
  return seen.size;
};

const sameAgain = async (atlas: Atlas): Promise<void> => {
  const again = atlasOfBytes(await bytesOfAtlas(atlas, atOnce));
  // Deeply the same, absent and undefined told apart, and fields in their order.
  expect(again).toStrictEqual(atlas);
  expect(JSON.stringify(again)).toBe(JSON.stringify(atlas));
  expect(objectsIn(again)).toBeLessThanOrEqual(objectsIn(atlas));
};

describe('[A5] an atlas out of its bytes is the atlas, deeply and to the last bit', () => {
  test('[A5] the demo atlas, one of copies of it, and an empty one', async () => {
    await sameAgain(demoAtlas);
    await sameAgain(largerAtlas(demoAtlas, 5));
    const store = await freshStore();
    await sameAgain(await store.atlas.read());
  });

  test('[A5] random atlases', async () => {
    for (let seed = 1; seed <= 60; seed += 1) await sameAgain(randomCase(seed).atlas);
  });

  test('[A5] numbers that no decimal of fifteen places says, and what is said by no fact of today', async () => {
    const [part, ...others] = demoAtlas.parts;
    if (part === undefined) throw new Error('no parts');
    const facts = {
      a: { kind: 'measure', nominal: 0.1 + 0.2, lower: -5e-324, upper: 1 / 3, code: 'H7' },
      b: { kind: 'measure', nominal: -0, lower: 0, upper: Number.MAX_VALUE },
      c: { kind: 'count', from: 0, to: 2 ** 53 - 1 },
      d: { kind: 'mark', anyOf: [], blank: true },
      e: { kind: 'mark', anyOf: ['', 'é 涡 🌀\u0000'], blank: false },
      f: { kind: 'presence', present: false },
      g: { kind: 'presence', present: true },
      h: { kind: 'not known' },
    };
    await sameAgain({ ...demoAtlas, parts: [{ ...part, facts, more: [{ deep: null }], none: undefined } as never, ...others] });
  });
});

/** A folder with an atlas in it that was read and kept; then another name stands in its tables, so that it shows whether it is read from them. */
const keptFolder = async (): Promise<{ readonly folder: string; readonly file: string; readonly kept: string; readonly atlas: Atlas }> => {
  const file = (await filledStore()).file;
  const folder = dirname(file);
  const store = await freshStore({ file, keptIn: folder });
  const atlas = await store.atlas.read();
  expect(await store.atlas.keep(atlas)).toBe(true);
  const connection = await Connection.open(file, { mode: 'write', busyMs: 1000 });
  await connection.run(`update parts set name = 'out of the tables'`);
  await connection.close();
  const [name = ''] = keptIn(folder);
  return { folder, file, kept: join(folder, name), atlas };
};

const keptIn = (folder: string): string[] => readdirSync(folder).filter((name) => name.startsWith('kept-'));
const fromTables = (atlas: Atlas): boolean => atlas.parts.every(({ name }) => name === 'out of the tables');
const opened = async (file: string): Promise<Store> => freshStore({ file, keptIn: dirname(file), readOnly: true });

describe('[R8] an atlas that was kept as it was read', () => {
  test('[R8] is read from there by whoever opens it next, and is what was read; without a folder for it, nothing is', async () => {
    const { file, atlas, folder } = await keptFolder();
    const again = await (await opened(file)).atlas.read();
    expect(again).toStrictEqual(atlas);
    expect(JSON.stringify(again)).toBe(JSON.stringify(atlas));
    expect(fromTables(await (await freshStore({ file })).atlas.read())).toBe(true);
    rmSync(folder, { recursive: true });
  });

  test('[R8] whatever was done to the file, it is read anew in silence, and kept again as it was', async () => {
    const { file, kept, atlas, folder } = await keptFolder();
    const whole = readFileSync(kept);
    const store = await opened(file);
    const end = whole.indexOf('\n') + 1;
    const flipped = (at: number, bit: number): Buffer => {
      const bytes = Buffer.from(whole);
      bytes[at] = (bytes[at] as number) ^ (1 << bit);
      return bytes;
    };
    const head = JSON.parse(whole.subarray(0, end).toString());
    /** With a hash that is right for it. */
    const sealed = (alter: object, body: Uint8Array): Buffer => {
      const { hash: _hash, ...rest } = { ...head, ...alter, bytes: body.length };
      return Buffer.concat([Buffer.from(`${JSON.stringify({ ...rest, hash: sealOf(JSON.stringify(rest), body) })}\n`), body]);
    };
    const body = whole.subarray(end);
    expect(sealed({}, body).equals(whole), 'the test seals as the program does').toBe(true);
    const spoilt: Buffer[] = [
      ...Array.from({ length: end }, (_, at) => flipped(at, at % 8)),
      ...Array.from({ length: 120 }, (_, n) => flipped(end + Math.floor((n * body.length) / 120), n % 8)),
      flipped(whole.length - 1, 0),
      ...[0, 1, end - 1, end, end + 1, whole.length - 1].map((length) => whole.subarray(0, length)),
      Buffer.concat([whole, Buffer.from([0])]),
      Buffer.from('Dear Sirs,\n'),
      Buffer.alloc(whole.length),
      // Whole, and of another program, another atlas, or of none.
      sealed({ madeBy: 'f'.repeat(64) }, body),
      sealed({ atlas: 'f'.repeat(64) }, body),
      sealed({}, Buffer.from('no bytes of an atlas')),
    ];
    const version = kept.slice(-64) as Version;
    for (const [n, bytes] of spoilt.entries()) {
      writeFileSync(kept, bytes);
      // Through the store each once in a while.
      if (n % 50 === 0) expect(fromTables(await store.atlas.read()), `spoilt in way ${n}`).toBe(true);
      else expect(await keptReading(folder, version), `spoilt in way ${n}`).toBe(null);
      expect(existsSync(kept)).toBe(false);
    }
    writeFileSync(kept, whole);
    expect(await store.atlas.read()).toStrictEqual(atlas);
    writeFileSync(kept, spoilt[0] as Buffer);
    const read = await store.atlas.read();
    expect(await store.atlas.keep(read)).toBe(true);
    expect(keptIn(folder)).toHaveLength(1);
    expect(await (await opened(file)).atlas.read()).toStrictEqual(read);
  });

  test('[R8] another version of the atlas has a file of its own, and that alone stays; one called otherwise is the same', async () => {
    const { file, folder, kept } = await keptFolder();
    const store = await freshStore({ file, keptIn: folder });
    const pack = join(freshFolder(), 'pack');
    const load = async (edition: string, name: string): Promise<void> => {
      rmSync(pack, { recursive: true, force: true });
      cpSync(smallPack, pack, { recursive: true });
      for (const [of, from, to] of [
        ['pack.json', '2026-03-02', edition],
        ['parts.csv', 'journal set', name],
      ] as const)
        writeFileSync(join(pack, of), readFileSync(join(pack, of), 'utf8').replace(from, to));
      valueIn(await store.packs.load(pack, { anyEdition: true }));
    };
    const before = await (await opened(file)).atlas.read();
    await load('2026-05-01', 'set of journals');
    const after = await store.atlas.read();
    expect(after.edition).toBe('small 2026-05-01');
    // In the file of the other version, what is kept of this one is that of another.
    const of = readFileSync(kept);
    expect(await store.atlas.keep(after)).toBe(true);
    const [now = ''] = keptIn(folder);
    expect([keptIn(folder).length, join(folder, now) === kept]).toEqual([1, false]);
    const good = readFileSync(join(folder, now));
    writeFileSync(join(folder, now), of);
    expect(await store.atlas.read()).toStrictEqual(after);
    writeFileSync(join(folder, now), good);
    await load('2026-06-01', 'set of journals');
    const renamed = await store.atlas.read();
    expect(renamed).toStrictEqual({ ...after, edition: 'small 2026-06-01' });
    expect(Object.keys(renamed)).toEqual(Object.keys(after));
    expect(before.edition).toBe('small 2026-03-02');
  });

  test('[R8] what has changed since it was read is not kept; nor what was kept already, or belongs to another store', async () => {
    const { file, folder, kept, atlas } = await keptFolder();
    rmSync(kept);
    const store = await freshStore({ file, keptIn: folder });
    const read = await store.atlas.read();
    expect(await store.atlas.keep(atlas)).toBe(false);
    valueIn(await store.packs.remove('small'));
    expect(await store.atlas.keep(read)).toBe(false);
    expect(keptIn(folder)).toEqual([]);
    const empty = await store.atlas.read();
    expect(await store.atlas.keep(empty)).toBe(true);
    const again = await (await opened(file)).atlas.read();
    expect(again).toStrictEqual(empty);
    expect(await store.atlas.keep(again)).toBe(false);
  });

  test('[R8] what others left half written goes; what is being written by a program that runs stays', async () => {
    const { file, folder, kept } = await keptFolder();
    const left = [`${kept}.999999999-0a.being-written`, join(folder, 'kept-reading-f00')];
    const own = [`${kept}.${process.pid}-0a.being-written`, join(folder, 'a letter.txt')];
    for (const each of [...left, ...own]) writeFileSync(each, 'x');
    rmSync(kept);
    const store = await opened(file);
    expect(await store.atlas.keep(await store.atlas.read())).toBe(true);
    expect([...left, ...own].map(existsSync)).toEqual([false, false, true, true]);
  });

  test('[R8] where it cannot be written, or its time is wanted, nothing is left of it and nobody is troubled', async () => {
    const { file, folder, kept } = await keptFolder();
    rmSync(kept);
    for (const keptIn of [join(folder, 'no such folder'), file]) {
      const store = await freshStore({ file, keptIn });
      const atlas = await store.atlas.read();
      expect(fromTables(atlas)).toBe(true);
      expect(await store.atlas.keep(atlas)).toBe(false);
    }
    // A folder stands where the file should.
    mkdirSync(kept);
    const store = await opened(file);
    const atlas = await store.atlas.read();
    expect(fromTables(atlas)).toBe(true);
    rmSync(kept, { recursive: true, force: true });
    let turns = 0;
    const wanted = async (): Promise<void> => {
      turns += 1;
      if (turns === 3) throw new Error('wanted elsewhere');
    };
    expect(await store.atlas.keep(atlas, wanted)).toBe(false);
    expect(keptIn(folder)).toEqual([]);
    expect(await store.atlas.keep(atlas)).toBe(true);
  });
});

/** What a head is sealed with: SHA-256 of it and the bytes behind it. */
const sealOf = (head: string, body: Uint8Array): string => createHash('sha256').update(head).update(body).digest('hex');
