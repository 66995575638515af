import { z } from 'zod';
import type { PartPrice, ShopPrice } from '../../db/answers.ts';
import type { PartId } from '../../reasoner/index.ts';
import { mostMoney } from '../../reasoner/plain/money.ts';
import { call, id, madeAgainst, nothing } from './call.ts';
import { moneyCode, plainLine, whoWrites } from './settings-calls.ts';

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
} as const;
