import type { PartId } from '../../reasoner/index.ts';
import { readAmount } from '../../reasoner/plain/money.ts';
import { csvOf } from './csv.ts';
import { readShopTable, type SayFault, type ShopTableFault, shownCell } from './read-shop-table.ts';
import type { PriceSaid, ShopPrice } from './stock.ts';

/** `state` is the price's as it stood when the table was written, and may be left out of a table altogether; `name` is for who reads it. */
const columns = ['part', 'state', 'name', 'price', 'money', 'note'] as const;
type Column = (typeof columns)[number];

/** The shop's price list as a table, to be read in again. */
export const pricesCsv = (prices: readonly ShopPrice[]): string =>
  csvOf(
    columns,
    prices.map(({ part, state, name, amount, money, note }) => [part, state, name ?? '', String(amount), money, note]),
  );

/** A row of a table that says what is to be asked for a part. */
export interface PriceRow {
  /** As a spreadsheet counts it, header included. */
  readonly row: number;
  readonly part: PartId;
  /** Null: the table does not say. */
  readonly state: number | null;
  /** Null takes it off the list. */
  readonly price: PriceSaid | null;
}

/** Reads a table of prices by its headings, in any order. An empty price takes the part off the list. Every fault is named by row and column. */
export const readPriceTable = (
  text: string,
  file: string,
): { readonly rows: readonly PriceRow[] } | { readonly faults: readonly ShopTableFault[] } => {
  const named = new Map<string, number>();
  return readShopTable<Column, PriceRow>(text, file, {
    columns,
    least: [['part'], ['price']],
    leastSaid: 'at least “part” and “price”',
    longest: [
      ['part', 200],
      ['note', 300],
    ],
    row: (row, of, say) => {
      const part = of('part');
      if (part === '') say(row, 'part', 'nothing', 'the id of a part');
      if (part !== '' && named.has(part)) say(row, 'part', `the part of row ${named.get(part)} again`, 'each part once');
      named.set(part, row);
      const state = of('state');
      if (state !== '' && !isState(state))
        say(row, 'state', shownCell(state), 'the figure this price had when the table was written, or nothing');
      const price = priceOfRow(row, of('price'), of('money'), 'to take it off the list', say);
      return { row, part: part as PartId, state: state === '' ? null : Number(state), price: price && { ...price, note: of('note') } };
    },
  });
};

/** Whether a text is the number of a state, from 1. */
export const isState = (text: string): boolean => /^[1-9]\d{0,8}$/.test(text);

/** What a row asks; null where it says nothing, which is no fault, or no amount. @param nothing what nothing means there: `where it is not known` */
export const priceOfRow = (
  row: number,
  price: string,
  money: string,
  nothing: string,
  say: SayFault<'price' | 'money'>,
): { readonly amount: number; readonly money: string } | null => {
  if (price === '') return null;
  const [amount, code] = [readAmount(price), money.toUpperCase()];
  if (amount === null) say(row, 'price', shownCell(price), `an amount above 0, or nothing ${nothing}`);
  if (!/^[A-Z]{3}$/.test(code)) say(row, 'money', shownCell(money), 'three letters, as ISO 4217 has them');
  return amount === null ? null : { amount, money: code };
};
