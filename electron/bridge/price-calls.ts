import { z } from 'zod';
import type { PartPrice, PriceState, PriceTable, ShopPrice } from '../../db/answers.ts';
import type { PartId } from '../../reasoner/index.ts';
import { mostMoney } from '../../reasoner/plain/money.ts';
import { call, id, madeAgainst, nothing } from './call.ts';
import { moneyCode, plainLine, whoWrites } from './settings-calls.ts';
import { table } from './stock-calls.ts';

export const priceSchema = z.strictObject({
  amount: z.number().positive().max(mostMoney),
  money: moneyCode,
  note: plainLine(300).default(''),
});

/** What the shop asks for parts, by its own list. */
export const priceCalls = {
  'prices.list': call(nothing).returns<readonly ShopPrice[]>(),
  /** What is asked for a part, by the shop and by the rates of packs. */
  'prices.of': call(z.strictObject({ part: id<PartId>() })).returns<PartPrice>(),
  /** Null takes the part off the list. Saved against the version of the price that was read (H5). */
  'prices.set': call(z.strictObject({ part: id<PartId>(), price: priceSchema.nullable(), who: whoWrites, madeAgainst })).returns<null>(),
  /** What was asked for a part, newest first. */
  'prices.history': call(z.strictObject({ part: id<PartId>() })).returns<readonly PriceState[]>(),
  /** The whole list as CSV (RFC 4180), to be read in again. */
  'prices.csv': call(nothing).returns<string>(),
  /** What a table would do, all its faults by row and column; nothing is changed. */
  'prices.lookAtTable': call(table).returns<PriceTable>(),
  /** The same, done: all of it or nothing. */
  'prices.takeInTable': call(table.extend({ who: whoWrites })).returns<PriceTable>(),
} as const;
