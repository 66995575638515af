import type { Feature, Model } from '../atlas/atlas.ts';
import type { ModelId, SlotId } from '../ids.ts';
import { fullName, type NameRule } from '../names/compile-names.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { type Unit, unitOf } from '../unit/unit.ts';
import { swapSetsOf } from '../why/explain.ts';
import type { Draw } from './draw.ts';
import type { Choice, Drill, Ground, Kind, Topic } from './drill.ts';
import { inOrder } from './looks.ts';
import { builtAs, foundSheet, goesIn, looksOf, modelsOf, nameToCarry, observed, type Parts, partAt, shownOf, tellsOut } from './units.ts';
import { eachOnce, reasonsAgainst, showingsOf } from './why-ruled-out.ts';

type SwappedTopic = Extract<Topic, { kind: 'swapped' }>;

/** Slots shown, and how often two of them are swapped instead of one. */
const [slotsShown, twoOften] = [5, 0.25];

/**
 * Which slot gives it away: a unit offered under a model's name, with one or two parts that are not that model's. Right is a minimal swap set (S1): the slots
 * that have to be put right, and that suffice, before the name is no longer ruled out.
 */
export const swapped: Kind<SwappedTopic> = {
  make: (ground, topic, draw) => {
    const model = draw.any(modelsOf(ground, topic.family));
    const built = model === undefined ? null : builtAs(ground, model, draw);
    if (model === undefined || built === null) return null;
    const rule = nameToCarry(ground, model);
    const naming = ground.slots.filter(({ slot, number }) => (rule.demands[number] ?? null) !== null && slot.group !== 'plate');
    const first = naming.find(({ slot }) => slot.id === topic.slot);
    if (first === undefined) return null;
    const second = draw.chance(twoOften) ? draw.any(naming.filter((slot) => slot !== first)) : undefined;
    const parts = [...built];
    const told: Observation[] = [];
    for (const slot of second === undefined ? [first] : [first, second]) {
      const swap = strangerIn(ground, rule, parts, slot.number, draw);
      if (swap === null) return null;
      parts[slot.number] = swap.part;
      told.push(swap.seen);
    }
    const others = draw.shuffled(naming.filter((slot) => slot !== first && slot !== second)).slice(0, slotsShown - told.length);
    if (others.length < 2) return null;
    const shown = naming.filter((slot) => slot === first || slot === second || others.includes(slot));
    const beside = shown.flatMap(({ slot, number }) => {
      const had = told.filter((each) => each.slot === slot.id);
      const part = parts[number] ?? null;
      if (part === null) return had;
      const more = draw.shuffled(looksOf(ground, slot.id).filter((feature) => had.every((each) => each.feature !== feature.id)));
      const seen = more.flatMap((feature) => observed(feature, partAt(ground, number, part).facts[feature.id], draw) ?? []);
      return [...had, ...seen.slice(0, 3 - had.length)];
    });
    const observations = inOrder(ground, beside);
    const sheet = foundSheet(observations, { claimed: fullName(ground, model), claimedMaker: null });
    const sets = answersOf(unitOf(ground, sheet), rule);
    const asked = second === undefined ? [first] : [first, second];
    if (
      sets === null ||
      !sets.some((set) =>
        sameSlots(
          set,
          asked.map(({ slot }) => slot.id),
        ),
      )
    )
      return null;
    if (sets.every((set) => set.length === 0)) return null;
    // Only sets as large as the one asked for can be given; what the others would be is said with the verdict.
    if (sets.filter(({ length }) => length === asked.length).length >= shown.length) return null;
    const choices = shown.map(
      ({ slot }): Choice => ({ id: slot.id, text: slot.name, subject: { kind: 'slot', id: slot.id, text: slot.name } }),
    );
    const name = ground.families.get(model.family)?.maker == null ? `a ${model.name} core` : `“${fullName(ground, model)}”`;
    return {
      question:
        asked.length === 1 ? `Offered as ${name}. Which slot gives it away?` : `Offered as ${name}. Two slots give it away. Which two?`,
      sheet,
      shown: shownOf(ground, observations),
      respond: asked.length === 1 ? { kind: 'one' } : { kind: 'several', count: 2 },
      choices,
    };
  },

  judge: (ground, drill, response) => {
    const { unit, rule, model } = claimIn(ground, drill);
    const sets = answersOf(unit, rule) ?? [];
    const right = sets.some((set) => sameSlots(set, response as readonly SlotId[]));
    const accepted = sets.filter(({ length }) => length === response.length);
    const name = ground.families.get(model.family)?.maker == null ? `the ${model.name} core` : fullName(ground, model);
    const slotName = (id: string): string => ground.atlas.slots.find((slot) => slot.id === id)?.name ?? id;
    // What would still rule the name out with the parts answered put right; of a right answer nothing, and the reasons are those of the unit as it is.
    const left = right ? [] : reasonsAgainst(putRightIn(unit, response), rule);
    const shown = (left.length > 0 ? left : reasonsAgainst(unit, rule)).slice(0, 2);
    const putRight = response.map((slot) => `the ${slotName(slot)}`).join(' and ');
    const lead = right
      ? `With another ${response.map(slotName).join(' and another ')}, ${name} is no longer ruled out.`
      : left.length > 0
        ? `Put ${putRight} right and ${name} is still ruled out.`
        : `Putting ${putRight} right would do, but less would do as well.`;
    const missed = accepted[0]?.find((slot) => !response.includes(slot));
    const wrong = response.find((slot) => !accepted[0]?.includes(slot as SlotId));
    return {
      right,
      accepted,
      sentences: [lead, ...new Set(shown.map(({ sentence }) => sentence))],
      showings: eachOnce(
        shown.flatMap((reason) => showingsOf(unit, rule, reason, { seen: 'as shown', named: fullName(ground, model) })),
      ).slice(0, 2),
      confused:
        right || missed === undefined || wrong === undefined
          ? null
          : {
              asked: { kind: 'slot', id: missed, text: slotName(missed) },
              answered: { kind: 'slot', id: wrong, text: slotName(wrong) },
            },
    };
  },
};

/** A part of another model, one that goes in where there is one, that can be seen not to belong, with the look that tells. */
const strangerIn = (
  ground: Ground,
  rule: NameRule,
  parts: Parts,
  number: number,
  draw: Draw,
): { part: number; seen: Observation } | null => {
  const slot = ground.slots[number];
  const demand = rule.demands[number] ?? null;
  if (slot === undefined || demand === null) return null;
  const others = draw.shuffled(slot.parts.map((_, part) => part)).filter((part) => !demand.has(part));
  const going = others.filter((part) => goesIn(ground, parts, number, part));
  // Where nothing else drops in, a shop has made something go in; what was seen of it is all that is asked about.
  const strangers = going.length > 0 ? going : others;
  for (const part of strangers) {
    const telling = draw.shuffled(looksOf(ground, slot.slot.id)).flatMap((feature: Feature) => {
      const seen = observed(feature, slot.parts[part]?.facts[feature.id], draw);
      return seen !== null && tellsOut(ground, rule, feature, seen) ? [seen] : [];
    });
    const [first] = telling;
    if (first !== undefined) return { part, seen: first };
  }
  return null;
};

const claimIn = (ground: Ground, drill: Drill): { unit: Unit; rule: NameRule; model: Model } => {
  const sheet = drill.sheet as Sheet;
  const model = ground.atlas.models.find((each) => fullName(ground, each) === sheet.claimed);
  if (model === undefined) throw new Error(`a drill is about ${sheet.claimed}, which is no model of the atlas`);
  return { unit: unitOf(ground, sheet), rule: nameToCarry(ground, ground.models.get(model.id as ModelId) as Model), model };
};

/** The minimal swap sets, or null where they were cut short. */
const answersOf = (unit: Unit, rule: NameRule): readonly (readonly SlotId[])[] | null => {
  const { found, complete } = swapSetsOf(unit, rule);
  return complete ? found.map(({ slots }) => slots) : null;
};

/** The unit as it would be read if nothing were known against these slots' parts. */
const putRightIn = (unit: Unit, slots: readonly string[]): Unit =>
  unitOf(unit.atlas, { ...unit.sheet, observations: unit.sheet.observations.filter(({ slot }) => !slots.includes(slot)) });

const sameSlots = (a: readonly SlotId[], b: readonly SlotId[]): boolean => a.length === b.length && a.every((slot) => b.includes(slot));
