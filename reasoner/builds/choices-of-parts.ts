import { agrees } from '../atlas/agree.ts';
import type { Feature, Part } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import type { Demand } from '../compile/name-rule.ts';
import { featuresOf } from '../fits/features-of.ts';
import { featuresOfOperation } from '../fits/work/features-of-operation.ts';
import type { FeatureId, PartId } from '../ids.ts';
import { keptFor } from '../plain/kept-for.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { alikeBy, factsText } from './alike-by.ts';
import type { BuildConstraints } from './completion.ts';
import type { Prices } from './cost.ts';
import type { NameRanks } from './name-ranks.ts';

/**
 * Parts of one slot that no joint, chain, work, name, price or constraint tells apart: a search needs to try one of them only.
 */
export interface PartClass {
  /** The first of them stands for all. */
  readonly part: Part;
  readonly alike: readonly PartId[];
  /** Known price to pay; 0 for a part in stock. */
  readonly price: number;
  /** Bought without a known price. */
  readonly unpriced: boolean;
  readonly names: Uint32Array;
}

export interface Ground {
  readonly atlas: CompiledAtlas;
  readonly sheet: Sheet;
  readonly constraints: BuildConstraints;
  readonly prices: Prices;
  readonly names: NameRanks;
  /** What the name to keep demands, by slot number. */
  readonly keep: readonly Demand[] | null;
}

/**
 * What each slot may hold: its chosen part, nothing (null) where it is absent or a nameplate nobody chose, or classes of parts that meet the
 * constraints. A plate speaks for the bearing housing it was riveted to (O5), so none is ever added for the sake of a name.
 */
export const choicesOfParts = (ground: Ground): readonly (readonly PartClass[] | null)[] => {
  const { atlas, sheet, constraints } = ground;
  const stock = new Set(constraints.stock);
  return atlas.slots.map((slot) => {
    const chosen = sheet.chosen[slot.data.id];
    const classes = new Map<string, (PartClass & { alike: PartId[] })[]>();
    const all: PartClass[] = [];
    if (chosen === undefined && (sheet.absent.includes(slot.data.id) || slot.data.group === 'plate')) return null;
    const readAlike = chosen === undefined ? alikeIn(atlas, slot) : null;
    const required = (constraints.require ?? []).filter((each) => each.slot === slot.data.id).map(({ feature }) => feature);
    const demand = ground.keep?.[slot.number] ?? null;
    const own = chosen === undefined ? undefined : slot.partNumber.get(chosen);
    const asked = chosen === undefined ? slot.parts.keys() : own === undefined ? [] : [own];
    for (const number of asked) {
      const part = slot.parts[number] as Part;
      if (chosen === undefined && !meets(ground, slot, part, stock)) continue;
      if (demand !== null && !demand.has(number)) continue;
      const known = stock.has(part.id) || chosen !== undefined ? 0 : ground.prices.of.get(part.id);
      const names = ground.names.rowOf(slot.number, number);
      const unpriced = ground.prices.rates !== null && known === undefined;
      const key = `${readAlike?.[number]} ${known} ${factsText(part, required)}`;
      const nearly = classes.get(key) ?? [];
      const same = nearly.find((each) => sameRow(each.names, names));
      if (same) {
        same.alike.push(part.id);
        continue;
      }
      classes.set(key, nearly);
      const made = { part, alike: [part.id], price: known ?? 0, unpriced, names };
      nearly.push(made);
      all.push(made);
    }
    return all;
  });
};

const meets = ({ atlas, sheet, constraints }: Ground, slot: CompiledSlot, part: Part, stock: ReadonlySet<PartId>): boolean => {
  const { id } = slot.data;
  if (constraints.maker !== undefined && part.maker !== constraints.maker) return false;
  if (constraints.onlyStock === true && !stock.has(part.id)) return false;
  const required = (constraints.require ?? []).filter((each) => each.slot === id);
  // What is not known of a part is not what was asked for.
  const has = required.every(
    ({ feature, value }) =>
      agrees(atlas.features.get(feature) as Feature, part.facts[feature] ?? { kind: 'not known' }, { value, sure: { kind: 'seen' } }) ===
      'holds',
  );
  if (!has) return false;
  return sheet.observations.every(
    (seen) =>
      seen.slot !== id ||
      seen.sure.kind === 'told' ||
      agrees(atlas.features.get(seen.feature) as Feature, part.facts[seen.feature] ?? { kind: 'not known' }, seen) !== 'fails',
  );
};

const sameRow = (one: Uint32Array, other: Uint32Array): boolean => one === other || one.every((word, i) => word === other[i]);

const kept = keptFor((_: CompiledAtlas) => new Map<number, Uint32Array>());

/** For each part of a slot a number, the same for those of which everything that joints, chains and works ask is known alike. */
const alikeIn = (atlas: CompiledAtlas, { number, data, parts }: CompiledSlot): Uint32Array => {
  const slots = kept(atlas);
  const known = slots.get(number);
  if (known !== undefined) return known;
  const features = featuresThatTell(atlas).filter((feature) => atlas.features.get(feature)?.slot === data.id);
  const alike = Uint32Array.from(parts, alikeBy(features));
  slots.set(number, alike);
  return alike;
};

/** Every feature that joints, chains or works read or change. */
const featuresThatTell = (atlas: CompiledAtlas): readonly FeatureId[] => [
  ...new Set([
    ...atlas.joints.flatMap(({ data: joint }) => joint.rules.flatMap(featuresOf)),
    ...(atlas.data.chains ?? []).flatMap(({ links }) => links.map(({ feature }) => feature)),
    ...(atlas.data.operations ?? []).flatMap(featuresOfOperation),
  ]),
];
