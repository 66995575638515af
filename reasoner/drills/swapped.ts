import type { Model } from '../atlas/atlas.ts';
import type { NameRule } from '../compile/name-rule.ts';
import { fullName } from '../compile/name-texts.ts';
import type { ModelId, SlotId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { type Unit, unitOf } from '../unit/unit.ts';
import { swapSetsOf } from '../why/explain.ts';
import type { Choice, Drill, Ground, Kind, Topic } from './drill.ts';
import { inOrder } from './looks.ts';
import { swappedUnit } from './swapped-unit.ts';
import { foundSheet, looksAndLettersOf, mayFill, modelsOf, nameToCarry, observed, partAt, shownOf } from './units.ts';
import { eachOnce, reasonsAgainst, showingsOf } from './why-ruled-out.ts';

type SwappedTopic = Extract<Topic, { kind: 'swapped' }>;

/** Slots shown. */
const slotsShown = 5;

/**
 * Which slot gives it away: a unit offered under a model's name, with parts in one to three slots that are not that model's, all of which go together. Right is a minimal swap set (S1): the slots
 * that have to be put right, and that suffice, before the name is no longer ruled out.
 */
export const swapped: Kind<SwappedTopic> = {
  make: (ground, topic, draw) => {
    const model = draw.any(modelsOf(ground, topic.family));
    const slot = ground.slotNumber.get(topic.slot);
    if (model === undefined || slot === undefined) return null;
    const rule = nameToCarry(ground, model);
    const unit = swappedUnit(ground, model, rule, slot, draw, topic.level);
    if (unit === null) return null;
    const { parts, told } = unit;
    const asked = told.map((each) => each.slot);
    const naming = ground.slots.filter(({ data: of, number }) => (rule.demands[number] ?? null) !== null && of.group !== 'plate');
    const others = draw.shuffled(naming.filter(({ data: of }) => !asked.includes(of.id))).slice(0, slotsShown - asked.length);
    if (others.length < 2) return null;
    const shown = naming.filter((each) => asked.includes(each.data.id) || others.includes(each));
    const beside = shown.flatMap(({ data: slot, number }) => {
      const had = told.filter((each) => each.slot === slot.id);
      const part = parts[number] ?? null;
      if (part === null) return had;
      const more = draw.shuffled(
        looksAndLettersOf(ground, slot.id, topic.level).filter(
          (feature) => mayFill(feature, topic.level) && had.every((each) => each.feature !== feature.id),
        ),
      );
      const seen = more.flatMap((feature) => observed(feature, partAt(ground, number, part).facts[feature.id], draw, topic.level) ?? []);
      return [...had, ...seen.slice(0, 3 - had.length)];
    });
    const observations = inOrder(ground, beside);
    const sheet = foundSheet(observations, { claimed: fullName(ground, model), claimedMaker: null });
    const sets = answersOf(unitOf(ground, sheet), rule);
    if (sets === null || !sets.some((set) => sameSlots(set, asked))) return null;
    // Only sets as large as the one asked for can be given; what the others would be is said with the verdict.
    if (sets.filter(({ length }) => length === asked.length).length >= shown.length) return null;
    const choices = shown.map(
      ({ data: slot }): Choice => ({ id: slot.id, text: slot.name, subject: { kind: 'slot', id: slot.id, text: slot.name } }),
    );
    const name = ground.families.get(model.family)?.maker == null ? `a ${model.name} core` : `“${fullName(ground, model)}”`;
    return {
      question:
        asked.length === 1
          ? `Offered as ${name}. Which slot gives it away?`
          : `Offered as ${name}. ${many(asked.length)} slots give it away. Which ${many(asked.length).toLowerCase()}?`,
      sheet,
      shown: shownOf(ground, observations),
      respond: asked.length === 1 ? { kind: 'one' } : { kind: 'several', count: asked.length },
      choices,
    };
  },

  judge: (ground, drill, response) => {
    const { unit, rule, model } = claimIn(ground, drill);
    const sets = answersOf(unit, rule) ?? [];
    const right = sets.some((set) => sameSlots(set, response as readonly SlotId[]));
    const accepted = sets.filter(({ length }) => length === response.length);
    const name = ground.families.get(model.family)?.maker == null ? `the ${model.name} core` : fullName(ground, model);
    const slotName = (id: string): string => ground.data.slots.find((slot) => slot.id === id)?.name ?? id;
    // What would still rule the name out with the parts answered put right; of a right answer nothing, and the reasons are those of the unit as it is.
    const left = right ? [] : reasonsAgainst(putRightIn(unit, response), rule, drill.level);
    const shown = (left.length > 0 ? left : reasonsAgainst(unit, rule, drill.level)).slice(0, 2);
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

const many = (count: number): string => (count === 2 ? 'Two' : 'Three');

const claimIn = (ground: Ground, drill: Drill): { unit: Unit; rule: NameRule; model: Model } => {
  const sheet = drill.sheet as Sheet;
  const model = ground.data.models.find((each) => fullName(ground, each) === sheet.claimed);
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
