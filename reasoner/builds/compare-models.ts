import type { Fact, Model } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { familyName, fullName } from '../compile/name-texts.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { FeatureId, ModelId, PartId, SlotId } from '../ids.ts';
import { factsPhrase } from '../words/phrases.ts';

/** Two models side by side, differences first and each group in its own order. */
export interface Compared {
  readonly a: string;
  readonly b: string;
  readonly differences: number;
  readonly rows: readonly ComparedRow[];
}

export interface ComparedRow {
  readonly group: 'name' | 'parts' | 'sizes and looks';
  /** `compressor wheel`, `compressor wheel’s exducer diameter`, `hours`. */
  readonly what: string;
  /** Null: nothing there. */
  readonly a: string | null;
  readonly b: string | null;
  readonly same: boolean;
  readonly slot: SlotId | null;
  readonly feature: FeatureId | null;
}

const row = (
  group: ComparedRow['group'],
  what: string,
  a: string | null,
  b: string | null,
  of: Partial<ComparedRow> = {},
): ComparedRow => ({
  group,
  what,
  a,
  b,
  same: a === b,
  slot: null,
  feature: null,
  ...of,
});

const compared = (a: string, b: string, rows: readonly ComparedRow[]): Compared => {
  const different = rows.filter(({ same }) => !same);
  return { a, b, differences: different.length, rows: [...different, ...rows.filter(({ same }) => same)] };
};

/**
 * Two models: where each comes from, what may sit in each slot, and in what the parts that make the names differ.
 * @throws when the atlas has no such model
 */
export const compareModels = (atlas: CompiledAtlas, one: ModelId, other: ModelId): Compared => {
  const [a, b] = [modelIn(atlas, one), modelIn(atlas, other)];
  const family = (model: Model): string | null => {
    const of = atlas.families.get(model.family);
    return of === undefined ? null : familyName(atlas, of);
  };
  const generation = (model: Model): string | null => atlas.data.generations.find(({ id }) => id === model.generation)?.name ?? null;
  const years = ({ from, to }: Model): string | null => (from === null && to === null ? null : `${from ?? '?'} to ${to ?? 'today'}`);
  return compared(fullName(atlas, a), fullName(atlas, b), [
    row('name', 'family', family(a), family(b)),
    row('name', 'generation', generation(a), generation(b)),
    row('name', 'years', years(a), years(b)),
    ...atlas.data.slots.flatMap((slot) => {
      const seats = (model: Model) => model.allowed.filter((each) => each.slot === slot.id);
      const text = (model: Model): string | null => {
        const listed = seats(model).map(({ part, role }) => `${atlas.parts.get(part)?.name ?? part} (${role})`);
        return listed.length === 0 ? null : listed.join('; ');
      };
      const naming = (model: Model): PartId[] => seats(model).flatMap(({ part, role }) => (role === 'service' ? [] : [part]));
      return [
        row('parts', slot.name, text(a), text(b), { slot: slot.id }),
        ...(slot.group === 'plate' ? [] : factRows(atlas, slot.id, naming(a), naming(b))),
      ];
    }),
  ]);
};

const modelIn = (atlas: CompiledAtlas, id: ModelId): Model => {
  const model = atlas.models.get(id);
  if (model === undefined) throw new Error(`the atlas has no model ${id}`);
  return model;
};

/** What the atlas says of the parts on either side, feature by feature; features it is silent on for both are left out. */
const factRows = (atlas: CompiledAtlas, slot: SlotId, here: readonly PartId[], there: readonly PartId[]): ComparedRow[] => {
  if (here.length === 0 || there.length === 0) return [];
  const alike = here.length === there.length && here.every((part) => there.includes(part));
  if (alike) return [];
  return atlas.data.features.flatMap((feature) => {
    if (feature.slot !== slot) return [];
    const facts = (parts: readonly PartId[]): Fact[] =>
      parts.map((part) => atlas.parts.get(part)?.facts[feature.id] ?? { kind: 'not known' });
    const [mine, theirs] = [facts(here), facts(there)];
    if ([...mine, ...theirs].every(({ kind }) => kind === 'not known')) return [];
    const name = slotNameOf(atlas, slot);
    return [
      row('sizes and looks', `${name}’s ${feature.name}`, factsPhrase(feature, mine), factsPhrase(feature, theirs), {
        slot,
        feature: feature.id,
      }),
    ];
  });
};
