import { type Assumptions, checkAssumptions, startingAssumptions } from '../answer/assumptions.ts';
import type { Among, Check, IfRight, IfWrong, NameChance, NextCheck, Odds, OddsAnswer, SlotOdds, SuspectEntry } from '../answer/odds.ts';
import type { Feature, Model } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import { fullName } from '../compile/name-texts.ts';
import type { ObservationId } from '../ids.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import type { UnitSlot } from '../unit/unit.ts';
import { contradictionsIn } from '../verdict/answer.ts';
import { amongSentence } from '../words/among-sentence.ts';
import { entryPhrase, howToReadAgain, howToTake, howToTakeBriefly, readAgainBriefly } from '../words/check-words.ts';
import { groundOf } from './ground.ts';
import { type Judging, judging } from './judging.ts';
import { orderChecks, toRank } from './order-checks.ts';
import { type Chances, chancesOf, entriesIn, type Posterior, partChances, posteriorOf } from './posterior.ts';
import { allRight, type SlipChance, slipChances } from './slips.ts';
import type { Target } from './targets.ts';
import { type Weighed, weighAll } from './weigh-checks.ts';

/** What is worth listing: so many at most, and none below this chance. */
const worthListing = { atMost: 12, atLeast: 5e-4 };
/** Of what may be wrong, less is worth reading: an entry this likely to be it, and the first names. */
const worthDoubting = { atMost: 5, atLeast: 0.02, names: 3 };
/** Chances this near the greatest, relative to it, are alike: what is taken for granted is not known so well. */
const alike = 1e-3;
/** Below this it is rounding. */
const surely = 1e-9;

/** Everything weighed for a sheet; asked for again at once by the next check's effects. */
export interface Weighing {
  readonly atlas: CompiledAtlas;
  readonly assumptions: Assumptions;
  /** Without what only the weighing of checks takes. */
  readonly posterior: Mixture;
  readonly weighed: readonly Weighed[];
  readonly checks: readonly Check[];
}

type Mixture = Omit<Posterior, 'joint'>;

const weighings = new WeakMap<Sheet, Weighing>();

/** @throws RangeError as `oddsOf` */
export const weighingOf = (atlas: CompiledAtlas, sheet: Sheet, assumptions: Assumptions): Weighing => {
  const known = weighings.get(sheet);
  if (known && known.atlas === atlas && known.assumptions === assumptions) return known;
  const whole = posteriorOf(groundOf(atlas), sheet, checkAssumptions(assumptions));
  const weighed = weighAll(whole);
  const { joint: _, ...posterior } = whole;
  const made = { atlas, assumptions, posterior, weighed, checks: orderChecks(atlas, sheet, weighed, posterior.bits) };
  weighings.set(sheet, made);
  return made;
};

/**
 * How likely each name, each model it may have been built as and each part is if every entry is right; how likely one is wrong, and which; and the checks in the order of what they tell
 * per minute.
 * @throws RangeError when an assumption is no share, or when without slips what was seen cannot happen at all
 */
export const oddsOf = (atlas: CompiledAtlas, sheet: Sheet, assumptions: Assumptions = startingAssumptions): OddsAnswer => {
  const contradicted = contradictionsIn(atlas, sheet);
  if (contradicted) return contradicted;
  const { posterior, checks } = weighingOf(atlas, sheet, assumptions);
  const right = withoutSlips(posterior);
  const chance = allRight(posterior, right);
  const judged = judging(atlas, sheet);
  return {
    kind: 'odds',
    sheet: sheet.id,
    edition: atlas.data.edition,
    assumptions,
    ifRight: right === null ? null : ifRightOf(right, chance, judged, sheet),
    ifWrong: 1 - chance < surely ? null : ifWrongOf(posterior, right, chance, judged),
    bits: posterior.bits,
    checks,
  };
};

/** The same odds given that every entry is a true reading; null where they cannot all be. */
const withoutSlips = (posterior: Mixture): Chances | null => {
  const { ground, sheet, assumptions } = posterior;
  if (assumptions.slip === 0 || entriesIn(posterior).length === 0) return posterior;
  try {
    return chancesOf(ground, sheet, { ...assumptions, slip: 0 });
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
};

const ifRightOf = (right: Chances, chance: number, judged: Judging, sheet: Sheet): IfRight => {
  const { atlas, targets } = right.ground;
  // What can hardly be is not asked about; nor is anything, where no name will be given.
  const unasked = entriesIn(right).length === 0 && sheet.absent.length === 0;
  const left = unasked
    ? right.targets
    : share(right.targets.map((each, at) => (each < surely * surely || judged.rulesOut(targets.all[at] as Target) ? 0 : each)));
  const among = amongOf(right, left, sheet);
  const names = among.kind === 'names' ? listed(left) : [];
  const built = listed(right.built).map(({ at, chance: own }) => {
    const model = right.ground.built.models[at] ?? null;
    return {
      model,
      text: model === null ? 'a model the atlas does not list' : fullName(atlas, atlas.models.get(model) as Model),
      chance: own,
    };
  });
  return {
    chance,
    among,
    names: names.map(({ at, chance: own }) => {
      const target = targets.all[at] as Target;
      return { ...nameOf(target, own, judged), stands: judged.stands(target) };
    }),
    namesAlike: names.length === 0 ? 0 : alikeIn(left),
    namesRest: names.length === 0 ? 0 : restOf(names),
    built,
    builtAlike: alikeIn(right.built),
    builtRest: restOf(built),
    slots: atlas.slots.map((slot) => slotOdds(right, slot, judged.unit.slots[slot.number] as UnitSlot, sheet)),
  };
};

/** What the odds of names are among, or why none are given: with nothing entered they would say what is taken for granted and no more, and a list of parts alone is no likelihood. */
const amongOf = (right: Chances, left: Float64Array, { absent }: Sheet): Among => {
  const { atlas, targets } = right.ground;
  const named = (at: number): boolean => (targets.all[at] as Target).rules.length > 0;
  const kept = left.reduce((count, chance, at) => (named(at) && chance >= worthListing.atLeast ? count + 1 : count), 0);
  const kind = !targets.all.some((_, at) => named(at))
    ? 'no name can stand'
    : entriesIn(right).length === 0 && absent.length === 0
      ? 'nothing entered'
      : kept === 0
        ? 'no name is left'
        : 'names';
  return { kind, sentence: amongSentence(kind, kept, atlas.data.models.length) };
};

const ifWrongOf = (mixture: Mixture, right: Chances | null, chance: number, judged: Judging): IfWrong => {
  const wrong = 1 - chance;
  // chance(t | some entry wrong) = (chance(t) − chance(t | all right)·chance(all right)) / chance(some entry wrong).
  const targets = share(mixture.targets.map((each, at) => Math.max(0, each - chance * (right?.targets[at] ?? 0))));
  const suspects = slipChances(mixture).map(({ observation, chance: own }) => ({ observation, chance: Math.min(1, own / wrong) }));
  const { atlas } = mixture.ground;
  const entered = new Map(mixture.sheet.observations.map((observation) => [observation.id, observation]));
  const suspect = ({ observation, chance: own }: SlipChance): SuspectEntry => {
    const entry = entered.get(observation) as Observation;
    const feature = atlas.features.get(entry.feature) as Feature;
    const slot = atlas.slots[atlas.slotNumber.get(entry.slot) as number] as CompiledSlot;
    return { observation, slot: entry.slot, feature: entry.feature, text: entryPhrase(slot, feature, [entry]), chance: own };
  };
  return {
    chance: wrong,
    entries: suspects
      .slice(0, worthDoubting.atMost)
      .filter(({ chance: own }, at) => at === 0 || own >= worthDoubting.atLeast)
      .map(suspect),
    names: listed(targets)
      .slice(0, worthDoubting.names)
      .map(({ at, chance: own }) => {
        const target = mixture.ground.targets.all[at] as Target;
        return { ...nameOf(target, own, judged), ruledOutNow: judged.rulesOut(target) };
      }),
  };
};

/** Chances made to sum to one; as they are where there is nothing. */
const share = (chances: Float64Array): Float64Array => {
  const sum = chances.reduce((total, each) => total + each, 0);
  return sum > 0 ? chances.map((each) => each / sum) : chances;
};

/** The first of the checks, and how it is taken; null where none tells anything. */
export const nextCheck = (atlas: CompiledAtlas, sheet: Sheet, { checks: [check] }: Odds): NextCheck | null =>
  check === undefined ? null : { check, how: howToCheck(atlas, sheet, check), brief: briefCheck(atlas, check) };

/** Where to look, with what and when; or which entry to read again. */
export const howToCheck = (atlas: CompiledAtlas, sheet: Sheet, check: Pick<Check, 'slot' | 'feature' | 'again' | 'opening'>): string => {
  const feature = atlas.features.get(check.feature) as Feature;
  const slot = atlas.slots[atlas.slotNumber.get(check.slot) as number] as CompiledSlot;
  if (check.again.length === 0) return howToTake(atlas, slot, feature, check);
  const again = new Set<ObservationId>(check.again);
  return howToReadAgain(
    slot,
    feature,
    sheet.observations.filter(({ id }) => again.has(id)),
  );
};

/** The same in few words, for one line. */
export const briefCheck = (atlas: CompiledAtlas, check: Pick<Check, 'slot' | 'feature' | 'again' | 'opening'>): string => {
  const feature = atlas.features.get(check.feature) as Feature;
  const slot = atlas.slots[atlas.slotNumber.get(check.slot) as number] as CompiledSlot;
  return check.again.length === 0 ? howToTakeBriefly(atlas, slot, feature, check) : readAgainBriefly(slot, feature);
};

/** The likeliest names with their chances, as they are called whatever the verdict says. */
export const namesOf = (posterior: Posterior): NameChance[] => namesIn(posterior, posterior.targets, null);

const namesIn = ({ ground }: Chances, chances: Float64Array, judged: Judging | null): NameChance[] =>
  listed(chances).map(({ at, chance }) => nameOf(ground.targets.all[at] as Target, chance, judged));

const nameOf = (target: Target, chance: number, judged: Judging | null): NameChance => ({
  names: target.rules.map(({ name }) => name.id),
  text: judged?.textOf(target) ?? target.text,
  chance,
});

const listed = (chances: Float64Array): { at: number; chance: number }[] => {
  const found: { at: number; chance: number; rank: number }[] = [];
  for (let at = 0; at < chances.length; at += 1) {
    const chance = chances[at] as number;
    if (chance >= worthListing.atLeast) found.push({ at, chance: Math.min(1, chance), rank: toRank(chance) });
  }
  return found
    .sort((a, b) => b.rank - a.rank || a.at - b.at)
    .slice(0, worthListing.atMost)
    .map(({ at, chance }) => ({ at, chance }));
};

/** How many are as likely as the likeliest; none where nothing is likely. */
export const alikeIn = (chances: Float64Array): number => {
  const greatest = chances.reduce((most, chance) => Math.max(most, chance), 0);
  if (greatest === 0) return 0;
  return chances.reduce((count, chance) => (chance >= greatest * (1 - alike) ? count + 1 : count), 0);
};

const restOf = (list: readonly { readonly chance: number }[]): number =>
  Math.min(1, Math.max(0, 1 - list.reduce((sum, { chance }) => sum + chance, 0)));

/** Of the parts the verdict leaves in the slot, and the unlisted one. */
const slotOdds = (right: Chances, slot: CompiledSlot, { groupOf, isLive }: UnitSlot, sheet: Sheet): SlotOdds => {
  const unlisted = slot.parts.length;
  const all = partChances(right, slot.number);
  const chances = share(all.map((chance, part) => (part === unlisted || isLive[groupOf[part] as number] === 1 ? chance : 0)));
  const found = listed(chances).filter(({ at }) => at !== unlisted);
  const parts = [
    ...found.map(({ at, chance }) => ({ part: slot.parts[at]?.id ?? null, chance })),
    { part: null, chance: Math.min(1, chances[unlisted] as number) },
  ];
  const seen = sheet.observations.filter(({ slot: of, sure }) => of === slot.data.id && sure.kind !== 'told');
  const known = seen.map(({ feature }) => {
    const facts = slot.factsOf(feature);
    const silent = facts.distinct.findIndex(({ kind }) => kind === 'not known');
    return facts.of.reduce((sum, fact, part) => (fact === silent ? sum : sum + (chances[part] as number)), 0);
  });
  return {
    slot: slot.data.id,
    parts: parts.sort((a, b) => toRank(b.chance) - toRank(a.chance)),
    alike: alikeIn(chances),
    rest: restOf(parts),
    covered: known.length === 0 ? null : Math.min(1, known.reduce((sum, each) => sum + each, 0) / known.length),
  };
};
