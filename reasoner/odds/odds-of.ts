import type { Model } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../atlas/compile.ts';
import { fullName } from '../names/compile-names.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { contradictionsIn } from '../verdict/answer.ts';
import { howToTake } from '../words/check-words.ts';
import { type Assumptions, checkAssumptions, startingAssumptions } from './assumptions.ts';
import type { Joint } from './joint.ts';
import type { Check, NameChance, NextCheck, Odds, OddsAnswer, SlotOdds } from './odds.ts';
import { orderChecks, toRank } from './order-checks.ts';
import { groundOf, type Posterior, posteriorOf } from './posterior.ts';
import { askable, type Weighed, weigh } from './weigh-checks.ts';

/** What is worth listing: so many at most, and none below this chance. */
const worthListing = { atMost: 12, atLeast: 5e-4 };

/** Everything weighed for a sheet; asked for again at once by the next check's effects. */
interface Weighing {
  readonly atlas: CompiledAtlas;
  readonly assumptions: Assumptions;
  readonly posterior: Posterior;
  readonly weighed: readonly Weighed[];
  readonly checks: readonly Check[];
}

const weighings = new WeakMap<Sheet, Weighing>();

/** @throws RangeError as `oddsOf` */
export const weighingOf = (atlas: CompiledAtlas, sheet: Sheet, assumptions: Assumptions): Weighing => {
  const known = weighings.get(sheet);
  if (known && known.atlas === atlas && known.assumptions === assumptions) return known;
  const posterior = posteriorOf(groundOf(atlas), sheet, checkAssumptions(assumptions));
  const weighed = askable(posterior).map((each) => weigh(posterior, each));
  const made = { atlas, assumptions, posterior, weighed, checks: orderChecks(atlas, sheet, weighed, posterior.bits) };
  weighings.set(sheet, made);
  return made;
};

/**
 * How likely each name, each model it may have been built as and each part is, and the checks not yet made in the order of what they tell per minute.
 * @throws RangeError when an assumption is no share, or when without slips what was seen cannot happen at all
 */
export const oddsOf = (atlas: CompiledAtlas, sheet: Sheet, assumptions: Assumptions = startingAssumptions): OddsAnswer => {
  const contradicted = contradictionsIn(atlas, sheet);
  if (contradicted) return contradicted;
  const { posterior, checks } = weighingOf(atlas, sheet, assumptions);
  const names = namesOf(posterior);
  const built = listed(posterior.built).map(({ at, chance }) => {
    const model = atlas.atlas.models[at] as Model;
    return { model: model.id, text: fullName(atlas, model), chance };
  });
  return {
    kind: 'odds',
    sheet: sheet.id,
    edition: atlas.atlas.edition,
    assumptions,
    names,
    namesAlike: alikeIn(posterior.targets),
    namesRest: restOf(names),
    built,
    builtAlike: alikeIn(posterior.built),
    builtRest: restOf(built),
    slots: atlas.slots.map((slot) => slotOdds(posterior, slot)),
    bits: posterior.bits,
    checks,
  };
};

/** The first of the checks, and how it is taken; null where none tells anything. */
export const nextCheck = (atlas: CompiledAtlas, { checks: [check] }: Odds): NextCheck | null => {
  const feature = check && atlas.features.get(check.feature);
  const slot = check && atlas.slots[atlas.slotNumber.get(check.slot) as number];
  return feature && slot ? { check, how: howToTake(atlas, slot, feature, check) } : null;
};

/** The likeliest names with their chances. */
export const namesOf = ({ ground, targets }: Posterior): NameChance[] =>
  listed(targets).map(({ at, chance }) => ({ ...(ground.targets.all[at] as { names: NameChance['names']; text: string }), chance }));

const listed = (chances: Float64Array): { at: number; chance: number }[] => {
  const found: { at: number; chance: number; rank: number }[] = [];
  for (let at = 0; at < chances.length; at += 1) {
    const chance = chances[at] as number;
    if (chance >= worthListing.atLeast) found.push({ at, chance, rank: toRank(chance) });
  }
  return found
    .sort((a, b) => b.rank - a.rank || a.at - b.at)
    .slice(0, worthListing.atMost)
    .map(({ at, chance }) => ({ at, chance }));
};

/** How many are as likely as the likeliest. */
export const alikeIn = (chances: Float64Array): number => {
  const least = chances.reduce((greatest, chance) => Math.max(greatest, chance), 0) * (1 - 1e-9);
  return chances.reduce((count, chance) => (chance >= least ? count + 1 : count), 0);
};

const restOf = (list: readonly { readonly chance: number }[]): number => Math.max(0, 1 - list.reduce((sum, { chance }) => sum + chance, 0));

const slotOdds = ({ sheet, joint }: Posterior, slot: CompiledSlot): SlotOdds => {
  const { parts: chances } = joint[slot.number] as Joint;
  const unlisted = slot.parts.length;
  const all = chances.reduce((sum, chance) => sum + chance, 0);
  const found = listed(chances).filter(({ at }) => at !== unlisted);
  const parts = [
    ...found.map(({ at, chance }) => ({ part: slot.parts[at]?.id ?? null, chance: chance / all })),
    { part: null, chance: (chances[unlisted] as number) / all },
  ];
  const seen = sheet.observations.filter(({ slot: of, sure }) => of === slot.slot.id && sure.kind !== 'told');
  const known = seen.map(({ feature }) => {
    const facts = slot.factsOf(feature);
    const silent = facts.distinct.findIndex(({ kind }) => kind === 'not known');
    return facts.of.reduce((sum, fact, part) => (fact === silent ? sum : sum + (chances[part] as number)), 0) / all;
  });
  return {
    slot: slot.slot.id,
    parts: parts.sort((a, b) => toRank(b.chance) - toRank(a.chance)),
    alike: alikeIn(chances),
    rest: restOf(parts),
    covered: known.length === 0 ? null : known.reduce((sum, share) => sum + share, 0) / known.length,
  };
};
