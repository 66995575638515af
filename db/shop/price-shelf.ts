import type { PartId } from '../../reasoner/index.ts';
import type { Door } from '../driver/door.ts';
import type { Guard, Reader } from '../driver/driver.ts';
import { checkMadeAgainst, type MadeAgainst } from '../driver/made-against.ts';
import { insertRows } from '../driver/statements.ts';
import { versionOf } from '../driver/version.ts';
import * as t from '../schema.ts';
import { type Outcome, TroubleError, trouble } from '../trouble.ts';
import type { PartPrice, ShopPrice } from './stock.ts';

/** What is asked for a part, as it is said. */
export interface PriceSaid {
  readonly amount: number;
  readonly money: string;
  readonly note: string;
}

/** What the shop asks for parts of the atlas, by its own list. Every price it ever asked is kept. */
export interface PriceShelf {
  /** By name. Prices of parts that are no longer in the atlas are told too. */
  list(): Promise<Outcome<readonly ShopPrice[]>>;
  /** What is asked for a part: by the shop, null where it said nothing; and by the rates of packs. */
  of(part: PartId): Promise<Outcome<PartPrice>>;
  /** Null takes it off the list. Troubles: `not-found` of a part, `changed-since`. */
  set(part: PartId, price: PriceSaid | null, who: string, madeAgainst?: MadeAgainst): Promise<Outcome<null>>;
  /** Many at once, all or none; what is on the list already as it is said is left alone. Gives how many were changed. */
  setAll(prices: readonly { readonly part: PartId; readonly price: PriceSaid | null }[], who: string): Promise<Outcome<number>>;
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
      const batch = await pricesWritten(reader, [{ part, price }], at, who);
      return { batch, value: null };
    });
  },
  setAll: async (prices, who) => {
    const at = now().toISOString();
    return write(async (reader) => {
      const batch = await pricesWritten(reader, prices, at, who);
      return { batch, value: batch?.many ?? 0 };
    });
  },
});

const saidOf = ({ amount, money, note }: PriceSaid): PriceSaid => ({ amount, money, note });

const pricesHeld = async (reader: Reader, only: PartId | null = null): Promise<ShopPrice[]> => {
  const rows = await reader.all<Omit<ShopPrice, 'version'>>(
    `select s.part, p.name, s.price as amount, s.money, s.note, s.at, s.who from shop_prices s left join parts p on p.id = s.part
     where s.price is not null and s.n = (select max(n) from shop_prices where part = s.part) ${only === null ? '' : 'and s.part = ?'}
     order by coalesce(p.name, s.part), s.part`,
    only === null ? [] : [only],
  );
  return rows.map((row) => ({ ...row, version: versionOf(saidOf(row)) }));
};

/** The rows that make it so, with what they rest on; null where all of it is so already. Throws `not-found` for a part the atlas does not have and no price is kept of. */
const pricesWritten = async (
  reader: Reader,
  prices: readonly { readonly part: PartId; readonly price: PriceSaid | null }[],
  at: string,
  who: string,
) => {
  const held = new Map((await pricesHeld(reader)).map((price) => [price.part, price]));
  const parts = new Set(
    (
      await reader.all<{ id: PartId }>('select id from parts where id in (select value from json_each(?))', [
        JSON.stringify(prices.map(({ part }) => part)),
      ])
    ).map(({ id }) => id),
  );
  const counts = new Map(
    (
      await reader.all<{ part: PartId; n: number }>(
        'select part, max(n) as n from shop_prices where part in (select value from json_each(?)) group by part',
        [JSON.stringify(prices.map(({ part }) => part))],
      )
    ).map(({ part, n }) => [part, n]),
  );
  const rows = prices.flatMap(({ part, price }) => {
    const before = held.get(part) ?? null;
    if (!parts.has(part) && before === null)
      throw new TroubleError(trouble('not-found', `part ${part}`, `The atlas has no part “${part}”.`));
    const same = price === null ? before === null : before !== null && before.version === versionOf(saidOf(price));
    if (same) return [];
    return [
      { part, n: (counts.get(part) ?? 0) + 1, at, who, price: price?.amount ?? null, money: price?.money ?? null, note: price?.note ?? '' },
    ];
  });
  if (rows.length === 0) return null;
  const guard: Guard = {
    sql: 'select not exists (select 1 from json_each(?) j where (select count(*) from shop_prices where part = j.value ->> 0) <> j.value ->> 1)',
    params: [JSON.stringify(rows.map(({ part, n }) => [part, n - 1]))],
    refusal: trouble(
      'changed-since',
      'prices',
      'The price list was being written elsewhere at the same time. Nothing was changed. Try again.',
    ),
  };
  return { guards: [guard], statements: insertRows(t.shopPrices, rows), many: rows.length };
};
