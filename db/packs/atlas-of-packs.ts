import type { Atlas, FeatureId } from '../../reasoner/index.ts';
import type { Named } from '../atlas/list.ts';
import { everyList } from '../atlas/lists.ts';
import { type Pack, withAllowed } from '../atlas/pack.ts';
import { groupBy } from '../plain/group-by.ts';

/** The atlas some packs make together, as the store reads it: packs by id, shared entries once, facts by feature, a model's parts by slot and part. */
export const atlasOfPacks = (packs: readonly Pack[]): Atlas => {
  const inOrder = [...packs].sort((a, b) => (a.head.id < b.head.id ? -1 : 1));
  const lists = Object.fromEntries(
    everyList.map(({ name }) => [name, once(inOrder.flatMap((pack) => pack[name] as readonly Named[]))]),
  ) as unknown as Pick<Atlas, 'features' | 'slots'>;
  const feature = rankIn(lists.features);
  const parts = inOrder
    .flatMap((pack) => pack.parts)
    .map((part) => {
      const ids = (Object.keys(part.facts) as FeatureId[]).sort((a, b) => feature(a) - feature(b));
      return { ...part, facts: Object.fromEntries(ids.map((id) => [id, part.facts[id]])) };
    });
  const [slot, rank] = [rankIn(lists.slots), rankIn(parts)];
  const allowed = groupBy(
    inOrder.flatMap((pack) => pack.allowed),
    ({ model }) => model,
  );
  const models = inOrder
    .flatMap((pack) => pack.models)
    .map((model) =>
      withAllowed(
        model,
        [...(allowed.get(model.id) ?? [])]
          .sort((a, b) => slot(a.slot) - slot(b.slot) || rank(a.part) - rank(b.part))
          .map(({ slot: at, part, role }) => ({ slot: at, part, role })),
      ),
    );
  return { edition: inOrder.map(({ head }) => `${head.id} ${head.edition}`).join(' + '), ...lists, models, parts } as unknown as Atlas;
};

const once = (entries: readonly Named[]): readonly Named[] => [...new Map(entries.map((entry) => [entry.id, entry])).values()];

const rankIn = (list: readonly Named[]): ((id: string) => number) => {
  const rank = new Map(list.map(({ id }, at) => [id, at]));
  return (id) => rank.get(id) ?? rank.size;
};
