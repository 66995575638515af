import { describe, expect, test } from 'vitest';
import { columnsOf } from '../../../db/atlas/columns.ts';
import { FactPool } from '../../../db/atlas/fact-pool.ts';
import { factColumns } from '../../../db/atlas/facts.ts';
import type { Packed } from '../../../db/atlas/list.ts';
import { packedPages } from '../../../db/atlas/packed-rows.ts';
import { Records } from '../../../db/atlas/records.ts';
import type { Connection } from '../../../db/driver/connection.ts';
import * as t from '../../../db/schema.ts';
import type { Fact } from '../../../reasoner/index.ts';
import { freshConnection } from './kit.ts';

const facts = columnsOf(t.facts);

/** A table of facts without its checks and references: what crosses is asked, not what a fact may be. */
const withFacts = async (
  rows: readonly { readonly sizes: readonly (number | null)[]; readonly text: string | null }[],
): Promise<Connection> => {
  const connection = await freshConnection();
  await connection.script(
    `create table facts (${facts.names.map((name) => `${name} ${name === 'part' || name === 'feature' ? 'integer' : facts.isReal(name) ? 'real' : 'text'}`).join(', ')}, primary key (part, feature)) without rowid`,
  );
  for (const [at, { sizes, text }] of rows.entries())
    await connection.run('insert into facts (part, feature, nominal, lower, upper, code) values (?, ?, ?, ?, ?, ?)', [
      Math.floor(at / 3),
      at % 3,
      ...sizes,
      text,
    ]);
  return connection;
};

const columnIn = async (connection: Connection, name: string, page: number): Promise<unknown[]> => {
  const found: unknown[] = [];
  for await (const packed of packedPages(connection, facts, 'true', [], page)) {
    expect(packed.of(name)).toHaveLength(packed.rows);
    found.push(...packed.of(name));
  }
  return found;
};

/** Doubles of every size, by a seed. */
const randomBits = (seed: number): (() => number) => {
  let state = seed;
  const next = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) | 0;
    return state;
  };
  const words = new Int32Array(2);
  return () => {
    words[0] = next();
    words[1] = next() ^ (next() >>> 7);
    return new Float64Array(words.buffer)[0] as number;
  };
};

/** What the store lets into a column: no zero below zero, no whole number past 2^31. */
const mayBeBound = (value: number): boolean =>
  Number.isFinite(value) && value !== 0 && !(Number.isInteger(value) && Math.abs(value) >= 2 ** 31);

describe('[A5] rows that cross packed', () => {
  test('[A5] have every bit of their numbers: decimals, sums of decimals, and whatever else a number can be', async () => {
    const bits = randomBits(7);
    const wild = Array.from({ length: 400 }, bits).filter(mayBeBound);
    const sums = Array.from({ length: 60 }, (_, n) => 0.1 * n + 0.2);
    const decimals = Array.from({ length: 200 }, (_, n) =>
      Number(
        `${n % 2 === 0 ? '' : '-'}${n * n}.${String(n * 7919)
          .padStart(1 + (n % 12), '0')
          .slice(0, 12)}`,
      ),
    );
    const edges = [
      57.2,
      1_000_000,
      -1_000_000,
      2 ** 31 - 1,
      2 ** 31 + 0.5,
      2 ** 44 + 2 ** -8,
      1e-12,
      5e-13,
      5e-324,
      999_999.999_999,
      0.000_000_5,
      1 / 3,
      4503.599_627_370_497,
    ];
    // Pages of one kind alone, and such where one number of many is none that crosses as a decimal.
    for (const values of [decimals, edges, sums, wild, [...decimals, 1 / 3, ...decimals]]) {
      const rows = values.map((value, at) => ({ sizes: [value, at % 5 === 0 || value === 0 ? null : -value, null], text: null }));
      const connection = await withFacts(rows);
      for (const page of [7, 1000]) {
        for (const [at, name] of ['nominal', 'lower', 'upper'].entries()) {
          const found = await columnIn(connection, name, page);
          for (const [row, { sizes }] of rows.entries()) expect(found[row], `${name} of row ${row}`).toBe(sizes[at]);
          expect(found).toHaveLength(rows.length);
        }
      }
      await connection.close();
    }
  });

  test('[A5] have every letter of their texts, and nothing said is not an empty text', async () => {
    const texts = ['', null, '"', '\\', "'", '\n\t\u0001', 'é ß 涡轮 🌀', '[1,2]', 'null', ']","[', '\u2028'];
    const connection = await withFacts(texts.map((text) => ({ sizes: [null, null, null], text })));
    for (const page of [1, 4, 100]) expect(await columnIn(connection, 'code', page)).toEqual(texts);
    await connection.close();
  });

  test('[A5] come by key, each once, wherever a page ends; a column that was not asked for is a bug', async () => {
    const connection = await withFacts(Array.from({ length: 9 }, (_, n) => ({ sizes: [n, n, n], text: null })));
    for (const page of [1, 2, 3, 4, 8, 9, 10]) {
      const found: unknown[] = [];
      let last: Packed | null = null;
      for await (const packed of packedPages(connection, facts, 'part <> ?', [1], page, ['nominal'])) {
        for (let row = 0; row < packed.rows; row += 1) found.push(['part', 'feature', 'nominal'].map((name) => packed.of(name)[row]));
        last = packed;
      }
      expect(found, `${page} at once`).toEqual([0, 1, 2, 6, 7, 8].map((n) => [Math.floor(n / 3), n % 3, n]));
      expect(() => last?.of('kind')).toThrow('no column kind was read');
    }
    await connection.close();
  });
});

describe('[A5] facts that say the same', () => {
  const said: readonly Fact[] = [
    { kind: 'not known' },
    { kind: 'presence', present: true },
    { kind: 'presence', present: false },
    { kind: 'count', from: 10, to: 10 },
    { kind: 'count', from: 10, to: 12 },
    { kind: 'measure', nominal: 10, lower: 10, upper: 10 },
    { kind: 'measure', nominal: 10, lower: 0, upper: 0 },
    { kind: 'measure', nominal: 10, lower: 0, upper: 0.02 },
    { kind: 'measure', nominal: 10, lower: -0.02, upper: 0 },
    { kind: 'measure', nominal: 10 + 2e-15, lower: 0, upper: 0 },
    { kind: 'measure', nominal: 10, lower: 0, upper: 0.02, code: 'H7' },
    { kind: 'measure', nominal: 10, lower: 0, upper: 0.02, code: 'H8' },
    { kind: 'choice', anyOf: ['H7'] },
    { kind: 'choice', anyOf: ['H7', 'H8'] },
    { kind: 'mark', anyOf: ['H7'], blank: false },
    { kind: 'mark', anyOf: ['H7'], blank: true },
    { kind: 'mark', anyOf: [], blank: true },
  ];
  const bare = (fact: Fact) => {
    const { kind, nominal, lower, upper, code, anyOf, blank, present } = factColumns(fact);
    const bit = (is: boolean | null) => (is === null ? null : Number(is));
    return {
      kind,
      nominal,
      lower,
      upper,
      code,
      anyOf: anyOf === null ? null : JSON.stringify(anyOf),
      blank: bit(blank),
      present: bit(present),
    };
  };

  test('[A5] are one object, and those that differ in anything are two', () => {
    const pool = new FactPool();
    const first = said.map((fact) => pool.of(bare(fact)));
    expect(first).toStrictEqual(said);
    expect(new Set(first).size).toBe(said.length);
    // Many more, so that the pool grows meanwhile.
    const many = Array.from(
      { length: 9000 },
      (_, n): Fact => ({
        kind: 'measure',
        nominal: 3,
        lower: -1,
        upper: 1,
        ...{ [['nominal', 'lower', 'upper'][n % 3] as string]: n % 3 === 1 ? -10 - n : 10 + n },
      }),
    );
    const more = many.map((fact) => pool.of(bare(fact)));
    expect(more).toStrictEqual(many);
    expect(new Set(more).size).toBe(many.length);
    for (const fact of more) expect(pool.of(bare({ ...fact }))).toBe(fact);
    for (const [n, fact] of said.entries()) expect(pool.of(bare(fact))).toBe(first[n]);
  });

  test('[A5] records of the same keys are of their own values, each', () => {
    const records = new Records<string, number>();
    const made = [
      records.of(['a', 'b', 'c'], [1, 2, 3], 2),
      records.of(['a', 'b'], [3, 4], 2),
      records.of(['b', 'a'], [5, 6], 2),
      records.of(['a'], [7], 1),
      records.of([], [], 0),
      records.of(['a', 'b'], [8, 9], 2),
    ];
    expect(made.map((each) => JSON.stringify(each))).toEqual([
      '{"a":1,"b":2}',
      '{"a":3,"b":4}',
      '{"b":5,"a":6}',
      '{"a":7}',
      '{}',
      '{"a":8,"b":9}',
    ]);
  });
});
