import type { Model } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { NameRule } from '../compile/name-rule.ts';
import type { Observation } from '../sheet/sheet.ts';
import type { Draw } from './draw.ts';
import type { DrillLevel } from './drill.ts';
import { builtAs, goesIn, jointHolds, looksAndLettersOf, mayFill, observed, type Parts, partAt, tellsOut } from './units.ts';

/** A unit put together from parts that go together (J1: no joint between them fails), of which some are not the model's. */
export interface SwappedUnit {
  readonly parts: Parts;
  /** One look for each slot whose part the name does not allow, by which that can be seen. The slot asked for is first. */
  readonly told: readonly Observation[];
}

/** So many slots may give a unit away, and so many parts are tried in a slot before it is given up. */
const [mostStrangers, mostTried] = [3, 24];

/** How often a second slot is swapped that goes in by itself. */
const twoOften = 0.25;

/**
 * A model's unit with a part of another model in one slot, and in as many others as are needed for all of them to go together: a shaft of another
 * thickness comes with what it runs in. Null where this throw found none, or where it cannot be seen of each of them.
 */
export const swappedUnit = (
  atlas: CompiledAtlas,
  model: Model,
  rule: NameRule,
  slot: number,
  draw: Draw,
  level: DrillLevel = 'measured',
): SwappedUnit | null => {
  const built = builtAs(atlas, model, draw);
  if (built === null) return null;
  const single = joined(atlas, rule, built, slot, draw);
  if (single === null) return null;
  const naming = single.strangers.length === 1 && draw.chance(twoOften) ? alsoNaming(atlas, rule, single.strangers, draw) : undefined;
  const parts = [...single.parts];
  const strangers = [...single.strangers];
  const second =
    naming === undefined ? undefined : strangersFor(atlas, rule, parts, naming, draw).find((part) => goesIn(atlas, parts, naming, part));
  if (naming !== undefined && second !== undefined) {
    parts[naming] = second;
    strangers.push(naming);
  }
  const told = strangers.map((each) => lookThatTells(atlas, rule, each, parts[each] as number, draw, level));
  return told.every((each) => each !== null) ? { parts, told } : null;
};

const alsoNaming = (atlas: CompiledAtlas, rule: NameRule, strangers: readonly number[], draw: Draw): number | undefined =>
  draw.any(
    atlas.slots.flatMap(({ data: slot, number }) =>
      (rule.demands[number] ?? null) !== null && slot.group !== 'plate' && !strangers.includes(number) ? [number] : [],
    ),
  );

interface Joined {
  readonly parts: Parts;
  /** Slots whose part the name does not allow, the slot begun with first. */
  readonly strangers: readonly number[];
}

/** A stranger in a slot, with its neighbours exchanged until no joint fails; the fewest exchanged that is found, null where none. */
const joined = (atlas: CompiledAtlas, rule: NameRule, built: Parts, slot: number, draw: Draw): Joined | null => {
  let best: Joined | null = null;
  for (const part of strangersFor(atlas, rule, built, slot, draw).slice(0, mostTried)) {
    const parts = [...built];
    parts[slot] = part;
    const found = settled(atlas, rule, parts, new Set([slot]), [slot], draw);
    if (found === null) continue;
    if (found.strangers.length === 1) return found;
    if (best === null || found.strangers.length < best.strangers.length) best = found;
  }
  return best;
};

/** Exchanges what does not go with the slots already settled, one joint after another. */
const settled = (
  atlas: CompiledAtlas,
  rule: NameRule,
  parts: Parts,
  fixed: ReadonlySet<number>,
  strangers: readonly number[],
  draw: Draw,
): Joined | null => {
  const failing = atlas.joints.find((joint) => !jointHolds(atlas, joint, parts[joint.a] ?? null, parts[joint.b] ?? null));
  if (failing === undefined) return { parts, strangers };
  const [open] = [failing.a, failing.b].filter((each) => !fixed.has(each));
  if (open === undefined) return null;
  const settledParts = parts.map((part, number) => (fixed.has(number) ? part : null));
  const demand = rule.demands[open] ?? null;
  const going = (atlas.slots[open]?.parts ?? []).flatMap((_, part) => (goesIn(atlas, settledParts, open, part) ? [part] : []));
  // Of the parts that go, one the name allows, so that no more is swapped than has to be.
  const [own, foreign] = [going.filter((part) => demand?.has(part) ?? true), going.filter((part) => !(demand?.has(part) ?? true))];
  for (const part of [...draw.shuffled(own).slice(0, 3), ...draw.shuffled(foreign).slice(0, 3)]) {
    const strange = !(demand?.has(part) ?? true);
    if (strange && strangers.length === mostStrangers) continue;
    const next = [...parts];
    next[open] = part;
    const found = settled(atlas, rule, next, new Set([...fixed, open]), strange ? [...strangers, open] : strangers, draw);
    if (found !== null) return found;
  }
  return null;
};

/** Parts the name does not allow in a slot, those that go in as it is before the others. */
const strangersFor = (atlas: CompiledAtlas, rule: NameRule, parts: Parts, slot: number, draw: Draw): number[] => {
  const demand = rule.demands[slot] ?? null;
  if (demand === null) return [];
  const others = draw.shuffled((atlas.slots[slot]?.parts ?? []).map((_, part) => part)).filter((part) => !demand.has(part));
  const going = others.filter((part) => goesIn(atlas, parts, slot, part));
  return [...going, ...others.filter((part) => !going.includes(part))];
};

/** What could be seen of a part that no part the name allows could show. */
const lookThatTells = (
  atlas: CompiledAtlas,
  rule: NameRule,
  slot: number,
  part: number,
  draw: Draw,
  level: DrillLevel,
): Observation | null => {
  const of = atlas.slots[slot];
  if (of === undefined) return null;
  const looks = draw.shuffled(looksAndLettersOf(atlas, of.data.id, level));
  for (const feature of [...looks.filter((each) => mayFill(each, level)), ...looks.filter((each) => !mayFill(each, level))]) {
    const seen = observed(feature, partAt(atlas, slot, part).facts[feature.id], draw, level);
    if (seen !== null && tellsOut(atlas, rule, feature, seen)) return seen;
  }
  return null;
};
