import type { Rates } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { PartId, RatesId } from '../ids.ts';
import type { BuildCost } from './plan.ts';

/** Prices by one shop's rates: the ones asked for, by their id or as they are handed over, else the atlas's first. */
export interface Prices {
  readonly rates: Rates | null;
  readonly of: ReadonlyMap<PartId, number>;
}

/** @throws when the atlas has no such rates: the door refuses that */
export const pricesIn = (atlas: CompiledAtlas, asked?: RatesId | Rates): Prices => {
  if (typeof asked === 'object') return { rates: asked, of: new Map(asked.parts.map(({ part, price }) => [part, price])) };
  const all = atlas.data.rates ?? [];
  const rates = (asked === undefined ? all[0] : all.find(({ id }) => id === asked)) ?? null;
  if (asked !== undefined && rates === null) throw new Error(`the atlas has no rates ${asked}`);
  return { rates, of: new Map(rates?.parts.map(({ part, price }) => [part, price])) };
};

/** What a build costs: hours at the shop's rate, and the parts it does not have. What has no price is named and never counted as nothing. */
export const costOf = ({ rates, of }: Prices, hours: number, bought: readonly PartId[]): BuildCost => {
  const parts = bought.map((part) => ({ part, price: of.get(part) ?? null }));
  const labour = rates === null ? null : inPence(hours * rates.hour);
  return {
    hours,
    rates: rates?.id ?? null,
    money: rates?.money ?? null,
    labour,
    parts,
    atLeast: labour === null ? null : inPence(parts.reduce((sum, { price }) => sum + (price ?? 0), labour)),
    unpriced: parts.flatMap(({ part, price }) => (price === null ? [part] : [])),
  };
};

/** Money to the hundredth: sums of decimal prices are not exact in binary. */
export const inPence = (money: number): number => Math.round(money * 100) / 100;
