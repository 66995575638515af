import { agrees } from '../atlas/agree.ts';
import type { Feature, Part } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import type { Demand } from '../compile/name-rule.ts';
import { featuresOf } from '../fits/features-of.ts';
import { featuresOfOperation } from '../fits/work/features-of-operation.ts';
import type { FeatureId, PartId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';
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
  const read = featuresThatTell(atlas, constraints);
  const stock = new Set(constraints.stock);
  return atlas.slots.map((slot) => {
    const chosen = sheet.chosen[slot.data.id];
    const classes = new Map<string, PartClass & { alike: PartId[] }>();
    if (chosen === undefined && (sheet.absent.includes(slot.data.id) || slot.data.group === 'plate')) return null;
    const features = read.filter((feature) => atlas.features.get(feature)?.slot === slot.data.id);
    const demand = ground.keep?.[slot.number] ?? null;
    slot.parts.forEach((part, number) => {
      if (chosen === undefined ? !meets(ground, slot, part, stock) : part.id !== chosen) return;
      if (demand !== null && !demand.has(number)) return;
      const known = stock.has(part.id) || chosen !== undefined ? 0 : ground.prices.of.get(part.id);
      const names = ground.names.rowOf(slot.number, number);
      const unpriced = ground.prices.rates !== null && known === undefined;
      const key = `${features.map((feature) => JSON.stringify(part.facts[feature] ?? null)).join()}|${known}|${names.join()}`;
      const same = classes.get(key);
      if (same) same.alike.push(part.id);
      else classes.set(key, { part, alike: [part.id], price: known ?? 0, unpriced, names });
    });
    return [...classes.values()];
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

/** Every feature that joints, chains or works read or change. */
const featuresThatTell = (atlas: CompiledAtlas, constraints: BuildConstraints): readonly FeatureId[] => [
  ...new Set([
    ...atlas.joints.flatMap(({ data: joint }) => joint.rules.flatMap(featuresOf)),
    ...(atlas.data.chains ?? []).flatMap(({ links }) => links.map(({ feature }) => feature)),
    ...(atlas.data.operations ?? []).flatMap(featuresOfOperation),
    ...(constraints.require ?? []).map(({ feature }) => feature),
  ]),
];
