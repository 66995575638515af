import type { Outcome, Store } from '../../db/index.ts';
import { asId, type CompiledAtlas, type Rates, type RatesId, type SourceId } from '../../reasoner/index.ts';
import { well } from '../bridge/reply.ts';

/**
 * What a build is reckoned by where the shop has said what an hour costs: its own hour and its own prices, and for a part it asks nothing for the price of the first rates of the atlas,
 * where those are in the same money. Undefined where it has not said so: the atlas's rates are then what there is.
 */
export const shopRates = async (
  { settings, prices }: Pick<Store, 'settings' | 'prices'>,
  atlas: CompiledAtlas,
): Promise<Outcome<Rates | undefined>> => {
  const all = await settings.all();
  if (!all.ok) return all;
  const money = all.value.money.value;
  if (money === null || money.hour === null) return well(undefined);
  const listed = await prices.list();
  if (!listed.ok) return listed;
  const own = listed.value.flatMap((price) =>
    price.money === money.code && atlas.parts.has(price.part) ? [{ part: price.part, price: price.amount }] : [],
  );
  const known = new Set(own.map(({ part }) => part));
  const [first] = atlas.data.rates ?? [];
  const theirs = first !== undefined && (first.money === money.code || first.money === money.written) ? first.parts : [];
  return well({
    id: asId<RatesId>('the shop’s own'),
    name: 'the shop’s own list',
    money: money.written === '' ? money.code : money.written,
    hour: money.hour,
    parts: [...own, ...theirs.filter(({ part }) => !known.has(part))],
    source: asId<SourceId>('the shop’s own'),
  });
};
