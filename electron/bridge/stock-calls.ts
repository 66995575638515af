import { z } from 'zod';
import type { KeptStockLine, StockLine, StockLineId, StockState, StockTable } from '../../db/answers.ts';
import type { PartId } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { mostMoney } from '../../reasoner/plain/money.ts';
import { stockConditions } from '../../reasoner/plain/stock-condition.ts';
import { isWellFormed } from '../../reasoner/plain/well-formed.ts';
import { call, id, madeAgainst, nothing, version } from './call.ts';
import { moneyCode, plainLine, whoWrites } from './settings-calls.ts';

/** More of one line than anybody counts is a slip. */
const many = z.int().min(0).max(999_999);

/** A line as it is told: a part of the atlas, or words. */
export const stockLineSchema = z
  .strictObject({
    part: id<PartId>().nullable(),
    words: plainLine(300),
    number: plainLine(200),
    many,
    condition: z.enum(stockConditions),
    price: z.strictObject({ amount: z.number().positive().max(mostMoney), money: moneyCode }).nullable(),
    place: plainLine(200),
    note: plainLine(1000),
  })
  .refine(({ part, words }) => part !== null || words !== '', {
    error: 'what it is: a part of the atlas, or words',
    path: ['words'],
  }) satisfies z.ZodType<StockLine>;

const line = id<StockLineId>();
/** A table as it is handed in. */
export const table = z.strictObject({
  text: z.string().max(limits.tableLetters).refine(isWellFormed, { error: 'text without half a surrogate pair' }),
  file: z.string().min(1).max(300),
});

/** What lies on the shop's shelves. */
export const stockCalls = {
  'stock.list': call(nothing).returns<readonly KeptStockLine[]>(),
  /** Lines of one part. */
  'stock.of': call(z.strictObject({ part: id<PartId>() })).returns<readonly KeptStockLine[]>(),
  /** Every state a line had, newest first. */
  'stock.history': call(z.strictObject({ line })).returns<readonly StockState[]>(),
  /** Without an id a new line. */
  'stock.save': call(
    z.strictObject({ id: line.exactOptional(), line: stockLineSchema, who: whoWrites, madeAgainst }),
  ).returns<KeptStockLine>(),
  'stock.take': call(z.strictObject({ line, many: many.min(1), who: whoWrites })).returns<KeptStockLine>(),
  'stock.remove': call(z.strictObject({ line, who: whoWrites, madeAgainst: version })).returns<null>(),
  /** The whole list as CSV (RFC 4180), to be read in again. */
  'stock.csv': call(nothing).returns<string>(),
  /** What a table would do, all its faults by row and column; nothing is changed. */
  'stock.lookAtTable': call(table).returns<StockTable>(),
  /** The same, done: all of it or nothing. */
  'stock.takeInTable': call(table.extend({ who: whoWrites })).returns<StockTable>(),
} as const;
