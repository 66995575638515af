import type { Atlas, Feature, FeatureId, Maker, Model, Part, PartId, Slot, SlotId } from '../../reasoner/index.ts';
import { markKey } from '../../reasoner/plain/letters.ts';
import { fold, tight } from '../plain/fold.ts';
import { groupBy } from '../plain/group-by.ts';

/** What of the atlas a table is read against. */
export type Beside = Pick<
  Atlas,
  'slots' | 'features' | 'makers' | 'families' | 'generations' | 'models' | 'parts' | 'sources' | 'drawings'
>;

type Find<T> = (text: string) => readonly T[];

/** The atlas by what a table may call it. A look-up gives all that are called so, the better kind of word first: an id, a name, another word. */
export interface Known {
  readonly beside: Beside;
  readonly slot: Find<Slot>;
  /** What a slot is called; its id where the atlas has none of that id. */
  readonly slotName: (id: SlotId) => string;
  readonly feature: ReadonlyMap<FeatureId, Feature>;
  readonly featureOf: (slot: SlotId, text: string) => readonly Feature[];
  /** Every name and other word of a slot’s features, folded, in words and as one. */
  readonly wordsOf: (slot: SlotId) => readonly { readonly feature: Feature; readonly words: readonly string[]; readonly tight: string }[];
  readonly maker: Find<Maker>;
  readonly part: ReadonlyMap<PartId, Part>;
  /** By id, by number (signs and case passed over), by name. */
  readonly partsCalled: Find<Part>;
  readonly partsNumbered: Find<Part>;
  readonly model: ReadonlyMap<string, Model>;
  readonly modelsCalled: Find<Model>;
  readonly familiesCalled: Find<Beside['families'][number]>;
  readonly generationsCalled: Find<Beside['generations'][number]>;
  readonly sourcesCalled: Find<Beside['sources'][number]>;
  /** Of a count of full blades, that of the splitters between them, by the drawing both feed. */
  readonly splittersOf: ReadonlyMap<FeatureId, FeatureId>;
}

export const known = (beside: Beside): Known => {
  const { slots, features, makers, families, generations, models, parts, sources, drawings = [] } = beside;
  const inSlot = groupBy(features, ({ slot }) => slot);
  const wordsOf = new Map(
    [...inSlot].map(([slot, own]) => [
      slot,
      own.flatMap((feature) =>
        [feature.name, ...(feature.alsoCalled ?? [])].map((name) => ({ feature, words: fold(name).split(' '), tight: tight(name) })),
      ),
    ]),
  );
  const featuresOf = new Map([...inSlot].map(([slot, own]) => [slot, called(own)]));
  const numbered = groupBy(
    parts.flatMap((part) => [...new Set(part.numbers.map(markKey))].map((key) => ({ key, part }))),
    ({ key }) => key,
  );
  const partsNamed = called(parts);
  const slotNames = new Map(slots.map(({ id, name }) => [id, name]));
  return {
    beside,
    slot: called(slots),
    slotName: (id) => slotNames.get(id) ?? id,
    feature: new Map(features.map((feature) => [feature.id, feature])),
    featureOf: (slot, text) => featuresOf.get(slot)?.(text) ?? [],
    wordsOf: (slot) => wordsOf.get(slot) ?? [],
    maker: called(makers.map((maker) => ({ ...maker, alsoCalled: maker.tradeNames.map(({ name }) => name) }))) as Find<Maker>,
    part: new Map(parts.map((part) => [part.id, part])),
    partsCalled: (text) => {
      const byNumber = (numbered.get(markKey(text)) ?? []).map(({ part }) => part);
      const byName = partsNamed(text);
      return byName.some(({ id }) => id === text) ? byName : byNumber.length > 0 ? byNumber : byName;
    },
    partsNumbered: (text) => (numbered.get(markKey(text)) ?? []).map(({ part }) => part),
    model: new Map(models.map((model) => [model.id, model])),
    modelsCalled: called(models),
    familiesCalled: called(families),
    generationsCalled: called(generations),
    sourcesCalled: called(sources.map((source) => ({ ...source, name: source.title }))),
    splittersOf: new Map(
      drawings.flatMap(({ feeds }) => {
        const { fullBlades, splitterBlades } = feeds as { readonly fullBlades?: FeatureId; readonly splitterBlades?: FeatureId };
        return fullBlades === undefined || splitterBlades === undefined ? [] : [[fullBlades, splitterBlades] as const];
      }),
    ),
  };
};

/** By id, else by name, else by another word; case, accents, signs and spaces do not count but in an id. */
const called = <T extends { readonly id: string; readonly name: string; readonly alsoCalled?: readonly string[] }>(
  list: readonly T[],
): Find<T> => {
  const ids = groupBy(list, ({ id }): string => id);
  const names = groupBy(list, ({ name }) => tight(name));
  const likeIds = groupBy(list, ({ id }) => tight(id));
  const others = groupBy(
    list.flatMap((each) => [...new Set((each.alsoCalled ?? []).map(tight))].map((word) => ({ word, each }))),
    ({ word }) => word,
  );
  const keys = new Map(list.map(({ id, name }) => [id, fold(name)]));
  return (text) => {
    const own = ids.get(text);
    if (own !== undefined) return own;
    const key = tight(text);
    if (key === '') return [];
    const named = names.get(key) ?? [];
    // Of several whose names differ by spaces or signs alone, the one that is written so.
    const exact = named.length > 1 ? named.filter(({ id }) => keys.get(id) === fold(text)) : named;
    if (exact.length > 0 || named.length > 0) return exact.length > 0 ? exact : named;
    return likeIds.get(key) ?? (others.get(key) ?? []).map(({ each }) => each);
  };
};
