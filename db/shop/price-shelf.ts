import { desc, eq } from 'drizzle-orm';
import type { PartId } from '../../reasoner/index.ts';
import type { Door } from '../driver/door.ts';
import type { Batch, Reader } from '../driver/driver.ts';
import { checkMadeAgainst, type MadeAgainst } from '../driver/made-against.ts';
import { insertRows } from '../driver/statements.ts';
import { versionOf } from '../driver/version.ts';
import * as t from '../schema.ts';
import { failed, type Outcome, TroubleError, trouble } from '../trouble.ts';
import { type PriceRow, readPriceTable } from './price-csv.ts';
import { type ShopTableFault, tableRefused } from './read-shop-table.ts';
import type { PartPrice, PriceSaid, PriceState, PriceTable, ShopPrice } from './stock.ts';

/** What the shop asks for parts of the atlas, by its own list. Every price it ever asked is kept. */
export interface PriceShelf {
  /** By name. Prices of parts that are no longer in the atlas are told too. */
  list(): Promise<Outcome<readonly ShopPrice[]>>;
  /** What is asked for a part: by the shop, null where it said nothing; and by the rates of packs. */
  of(part: PartId): Promise<Outcome<PartPrice>>;
  /** Null takes it off the list. Troubles: `not-found` of a part, `changed-since`. */
  set(part: PartId, price: PriceSaid | null, who: string, madeAgainst?: MadeAgainst): Promise<Outcome<null>>;
  /** What was asked for a part, newest first; also of one that was taken off. Trouble: `not-found` where nothing was ever asked. */
  history(part: PartId): Promise<Outcome<readonly PriceState[]>>;
  /** What a table of prices would do (FORMAT: `price-csv.ts`). Trouble: `stock-table-invalid` with every fault. */
  lookAtTable(text: string, file: string): Promise<Outcome<PriceTable>>;
  /** The same, done: all of it or nothing; what is asked already is left alone. */
  takeInTable(text: string, file: string, who: string): Promise<Outcome<PriceTable>>;
}

export const priceShelf = ({ read, write, now }: Door): PriceShelf => ({
  list: () => read((reader) => pricesHeld(reader)),
  of: (part) =>
    read(async (reader) => {
      const [own = null] = await pricesHeld(reader, part);
      const packs = await reader.all<{ rates: string; amount: number; money: string }>(
        'select r.name as rates, p.price as amount, r.money from prices p join rates r on r.id = p.rates join parts x on x.n = p.part where x.id = ? order by r.pack, r.position',
        [part],
      );
      return { own, packs };
    }),
  set: async (part, price, who, madeAgainst) => {
    const at = now().toISOString();
    return write(async (reader) => {
      const [held = null] = await pricesHeld(reader, part);
      checkMadeAgainst(madeAgainst, held === null ? null : saidOf(held), `price ${part}`, 'The price', price ?? undefined);
      if (held === null && !(await partsAmong(reader, [part])).has(part))
        throw new TroubleError(trouble('not-found', `part ${part}`, `The atlas has no part “${part}”.`));
      if (sameAsked(held, price)) return { batch: null, value: null };
      const n = ((await statesOf(reader, [part])).get(part) ?? 0) + 1;
      return { batch: pricesWritten([{ part, n, price }], at, who), value: null };
    });
  },
  history: (part) =>
    read(async (reader) => {
      const rows = await reader.orm.select().from(t.shopPrices).where(eq(t.shopPrices.part, part)).orderBy(desc(t.shopPrices.n));
      if (rows.length === 0) throw new TroubleError(trouble('not-found', `price ${part}`, `Nothing was ever asked for a part “${part}”.`));
      return rows.map(({ at, who, price: amount, money, note }) => ({
        at,
        who,
        price: amount === null || money === null ? null : { amount, money, note },
      }));
    }),
  lookAtTable: async (text, file) => {
    const rows = readPriceTable(text, file);
    if ('faults' in rows) return failed(tableRefused(file, rows.faults));
    return read(async (reader) => (await plannedTable(reader, rows.rows, file)).table);
  },
  takeInTable: async (text, file, who) => {
    const rows = readPriceTable(text, file);
    if ('faults' in rows) return failed(tableRefused(file, rows.faults));
    const at = now().toISOString();
    return write(async (reader) => {
      const { states, table } = await plannedTable(reader, rows.rows, file);
      return { batch: states.length === 0 ? null : pricesWritten(states, at, who), value: table };
    });
  },
});

const saidOf = ({ amount, money, note }: PriceSaid): PriceSaid => ({ amount, money, note });

/** Whether a price says what is asked already. */
const sameAsked = (held: ShopPrice | null, price: PriceSaid | null): boolean =>
  price === null ? held === null : held !== null && held.version === versionOf(saidOf(price));

const pricesHeld = async (reader: Reader, only: PartId | null = null): Promise<ShopPrice[]> => {
  const rows = await reader.all<Omit<ShopPrice, 'version' | 'numbers'> & { readonly numbers: string }>(
    `select s.part, p.name, s.price as amount, s.money, s.note, s.n as state, s.at, s.who,
       (select json_group_array(x.number) from (select number from numbers where part = p.n order by position) x) as numbers
     from shop_prices s left join parts p on p.id = s.part
     where s.price is not null and s.n = (select max(n) from shop_prices where part = s.part) ${only === null ? '' : 'and s.part = ?'}
     order by coalesce(p.name, s.part), s.part`,
    only === null ? [] : [only],
  );
  return rows.map((row) => ({ ...row, numbers: JSON.parse(row.numbers) as string[], version: versionOf(saidOf(row)) }));
};

/** Those of them that the atlas has. */
const partsAmong = async (reader: Reader, parts: readonly PartId[]): Promise<ReadonlySet<PartId>> =>
  new Set(
    (await reader.all<{ id: PartId }>('select id from parts where id in (select value from json_each(?))', [JSON.stringify(parts)])).map(
      ({ id }) => id,
    ),
  );

/** How many prices each of them ever had, those that took it off the list among them. */
const statesOf = async (reader: Reader, parts: readonly PartId[]): Promise<ReadonlyMap<PartId, number>> =>
  new Map(
    (
      await reader.all<{ part: PartId; n: number }>(
        'select part, max(n) as n from shop_prices where part in (select value from json_each(?)) group by part',
        [JSON.stringify(parts)],
      )
    ).map(({ part, n }) => [part, n]),
  );

interface PriceStateWritten {
  readonly part: PartId;
  /** From 1. */
  readonly n: number;
  readonly price: PriceSaid | null;
}

/** The rows that make it so, where nobody has said another price of these parts meanwhile. */
const pricesWritten = (states: readonly PriceStateWritten[], at: string, who: string): Batch => ({
  guards: [
    {
      sql: 'select not exists (select 1 from json_each(?) j where (select coalesce(max(n), 0) from shop_prices where part = j.value ->> 0) <> j.value ->> 1)',
      params: [JSON.stringify(states.map(({ part, n }) => [part, n - 1]))],
      refusal: trouble(
        'changed-since',
        'prices',
        'The price list was being written elsewhere at the same time. Nothing was changed. Try again.',
      ),
    },
  ],
  statements: insertRows(
    t.shopPrices,
    states.map(({ part, n, price }) => ({
      part,
      n,
      at,
      who,
      price: price?.amount ?? null,
      money: price?.money ?? null,
      note: price?.note ?? '',
    })),
  ),
});

/** What a table alters of the list as it stands. Throws `stock-table-invalid` where it speaks of what is not there, or is otherwise than when the table was written. */
const plannedTable = async (
  reader: Reader,
  rows: readonly PriceRow[],
  file: string,
): Promise<{ readonly states: readonly PriceStateWritten[]; readonly table: PriceTable }> => {
  const held = new Map((await pricesHeld(reader)).map((price) => [price.part, price]));
  const parts = rows.map(({ part }) => part);
  const [known, counts] = [await partsAmong(reader, parts), await statesOf(reader, parts)];
  const [states, faults]: [PriceStateWritten[], ShopTableFault[]] = [[], []];
  let [fresh, changed, off, same] = [0, 0, 0, 0];
  for (const { row, part, state, price } of rows) {
    const before = held.get(part) ?? null;
    const count = counts.get(part) ?? 0;
    if (!known.has(part) && before === null) {
      const sentence = `Row ${row}, “part”: the atlas has no part “${part}”.`;
      faults.push({ place: `${file}, row ${row}, column part`, sentence });
    } else if (sameAsked(before, price)) {
      same += 1;
    } else if (state !== null && state !== count) {
      const sentence = `Row ${row}: the price of “${before?.name ?? part}” was changed on the list since this table was written${before === null ? '' : ` (${before.who || 'nobody said who'}, ${before.at.slice(0, 10)})`}. Write the table anew and make the change in that.`;
      faults.push({ place: `${file}, row ${row}, column state`, sentence });
    } else {
      if (price === null) off += 1;
      else if (before === null) fresh += 1;
      else changed += 1;
      states.push({ part, n: count + 1, price });
    }
  }
  if (faults.length > 0) throw new TroubleError(tableRefused(file, faults));
  return { states, table: { fresh, changed, off, same } };
};
