import type { Fact, Model } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { familyName, fullName } from '../compile/name-texts.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { FeatureId, ModelId, PartId, SlotId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { factsPhrase } from '../words/phrases.ts';
import { size } from './build-words.ts';
import type { Plan } from './plan.ts';

/** Two things side by side, differences first and each group in its own order. */
export interface Compared {
  readonly a: string;
  readonly b: string;
  readonly differences: number;
  readonly rows: readonly ComparedRow[];
}

export interface ComparedRow {
  readonly group: 'name' | 'verdict' | 'parts' | 'sizes and looks' | 'joints' | 'stacks of lengths' | 'operations' | 'cost';
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

export interface PlannedSheet {
  readonly sheet: Sheet;
  readonly plan: Plan;
}

/** Two builds on paper: what they may be called, part by part, joint by joint, work by work, and what they cost. */
export const compareBuilds = (atlas: CompiledAtlas, one: PlannedSheet, other: PlannedSheet): Compared => {
  const both = <T>(of: (build: PlannedSheet) => T): readonly [T, T] => [of(one), of(other)];
  const [a, b] = [one.plan, other.plan];
  const honest = (plan: Plan): string =>
    plan.names
      .filter(({ name }) => plan.honest.includes(name.id))
      .map(({ name }) => name.text)
      .join(' or ');
  const slots = atlas.slots.flatMap(({ data: slot }, i) => {
    const [here, there] = [a.slots[i], b.slots[i]];
    const text = (of: typeof here): string | null => of?.text ?? (of?.absent ? 'none' : null);
    return [
      row('parts', slot.name, text(here), text(there), { slot: slot.id }),
      ...factRows(atlas, slot.id, idsOf(here?.part), idsOf(there?.part)),
    ];
  });
  const joints = atlas.joints.map(({ data: joint }) => {
    const verdict = (plan: Plan): string | null => plan.joints.find((each) => each.joint === joint.id)?.verdict ?? null;
    return row('joints', joint.name, verdict(a), verdict(b));
  });
  const chains = (atlas.data.chains ?? []).map((chain) => {
    const verdict = (plan: Plan): string | null => plan.chains.find((each) => each.chain === chain.id)?.after.verdict ?? null;
    return row('stacks of lengths', chain.name, verdict(a), verdict(b));
  });
  const operations = (atlas.data.operations ?? []).flatMap((operation) => {
    const told = (plan: Plan): string | null => {
      const here = plan.works.filter((work) => work.operation === operation.id);
      return here.length === 0 ? null : here.map(({ sentence }) => sentence).join(' ');
    };
    const [mine, theirs] = [told(a), told(b)];
    return mine === null && theirs === null ? [] : [row('operations', operation.name, mine, theirs, { slot: operation.slot })];
  });
  const amount = (value: number | null): string | null => (value === null ? null : value.toFixed(2));
  const [titleA, titleB] = both(({ sheet }) => sheet.title);
  return compared(titleA, titleB, [
    row('name', 'may be called', honest(a), honest(b)),
    row('verdict', 'goes together', a.verdict, b.verdict),
    ...slots,
    ...joints,
    ...chains,
    ...operations,
    row('cost', 'hours', size(a.cost.hours), size(b.cost.hours)),
    row('cost', 'operations', String(a.works.length), String(b.works.length)),
    row('cost', `money, at least${a.cost.money === null ? '' : ` (${a.cost.money})`}`, amount(a.cost.atLeast), amount(b.cost.atLeast)),
    row('cost', 'parts without a price', String(a.cost.unpriced.length), String(b.cost.unpriced.length)),
  ]);
};

const idsOf = (part: PartId | null | undefined): readonly PartId[] => (part === null || part === undefined ? [] : [part]);

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
