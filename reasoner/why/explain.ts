import { defaultLimit } from '../algebra/network.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { CompiledSlot } from '../atlas/compile.ts';
import type { ModelId, SlotId, StageId } from '../ids.ts';
import { familyName, fullName } from '../names/compile-names.ts';
import { levelOf } from '../names/ladder.ts';
import { type Demand, type NameRule, union } from '../names/name-rule.ts';
import type { Observation } from '../sheet/sheet.ts';
import type { Unit } from '../unit/unit.ts';
import type { Conflict, Conflicts, Member, SwapSets } from '../verdict/verdict.ts';
import { conflictSentence, type NameInWords } from '../words/conflict-sentence.ts';
import { conflictsFor, membersOf } from './conflicts-for.ts';
import { stripDownMinutes } from './strip-down.ts';
import { swapsFor } from './swaps-for.ts';

/** The minimal conflicts of a name, in the order of K1 and in words (K2). */
export const conflictsOf = (unit: Unit, rule: NameRule, atMost: number): Conflicts =>
  inOrder(unit, rule, { text: spokenName(unit, rule), demands: spokenDemands(rule), oneOf: severalOf(unit, rule) }, atMost);

/** A model is spoken of by its name on every rung; what is set aside on a rung does not belong in a sentence about what is asked. */
const spokenName = (unit: Unit, { name }: NameRule): string => {
  const model = levelOf(name.rung) === 'model' ? unit.atlas.models.get(name.models[0] as ModelId) : undefined;
  return model ? fullName(unit.atlas, model) : `the ${name.text}`;
};

/** What a name that is one of several asks of a slot is any part that belongs to one of them there. */
const spokenDemands = ({ demands, anyOf }: NameRule): readonly Demand[] =>
  anyOf === null ? demands : demands.map((own, slot) => own ?? union(anyOf.flatMap((one) => one.demands[slot] ?? [])));

/** What such a name is one of: `model of the Merrowby Gannet family`; null of any other. */
const severalOf = (unit: Unit, { name, anyOf }: NameRule): string | null => {
  const family = name.family === null ? undefined : unit.atlas.families.get(name.family);
  if (anyOf === null || family === undefined) return null;
  const kind = anyOf[0]?.name.rung === 'pattern core' ? 'pattern core after' : anyOf[0]?.name.rung === 'core' ? 'core of' : 'model of';
  return `${kind} the ${familyName(unit.atlas, family)} family`;
};

/** The minimal conflicts of the unit with itself: every slot that holds something is to hold a listed part, and no name is asked for. */
export const unitConflicts = (unit: Unit, atMost: number): Conflicts => {
  // A slot that holds nothing is no disagreement; it is left out.
  if (unit.selfConflicts.every((slots) => slots.some((slot) => unit.slots[slot]?.absent))) return { found: [], complete: true };
  const any = unit.slots.map((slot) => (slot.absent ? null : new Set(slot.of.parts.keys())));
  const nameless = unit.atlas.names.at(-1) as NameRule;
  return inOrder(unit, { ...nameless, demands: any }, null, atMost);
};

const inOrder = (unit: Unit, rule: NameRule, words: NameInWords | null, atMost: number): Conflicts => {
  const { found, complete } = conflictsFor(unit, rule, atMost);
  const members = membersOf(unit, rule);
  const conflicts = found.map((labels) =>
    conflictOf(
      unit,
      labels.map((label) => members[label] as Member),
      words,
    ),
  );
  const order = bySizeThenStage(unit);
  const keyed = conflicts.map((conflict) => ({ conflict, key: JSON.stringify(conflict.members) }));
  return {
    complete,
    found: keyed.sort((a, b) => order(a.conflict, b.conflict) || (a.key < b.key ? -1 : 1)).map(({ conflict }) => conflict),
  };
};

/** K1's order. Sets alike in it are told apart by their members, so that the order entries were made in does not show. */
const bySizeThenStage =
  (unit: Unit) =>
  (a: Conflict, b: Conflict): number =>
    a.members.length - b.members.length || a.minutes - b.minutes || stageNumber(unit, a.stage) - stageNumber(unit, b.stage);

const conflictOf = (unit: Unit, members: readonly Member[], words: NameInWords | null): Conflict => {
  const slots = new Set<SlotId>();
  const stages = new Set<StageId>();
  for (const member of members) {
    switch (member.kind) {
      case 'observation': {
        const observation = unit.sheet.observations.find(({ id }) => id === member.observation) as Observation;
        const feature = unit.atlas.features.get(observation.feature) as Feature;
        slots.add(observation.slot);
        stages.add(feature.stage);
        break;
      }
      case 'absent':
      case 'rule':
        slots.add(member.slot);
        break;
      case 'joint': {
        const joint = unit.atlas.joints.find((each) => each.joint.id === member.joint);
        if (joint) for (const end of [joint.a, joint.b]) slots.add((unit.atlas.slots[end] as CompiledSlot).slot.id);
        break;
      }
    }
  }
  return {
    members,
    slots: unit.atlas.slots.flatMap(({ slot }) => (slots.has(slot.id) ? [slot.id] : [])),
    minutes: stripDownMinutes(unit.atlas, stages),
    stage: [...stages].sort((a, b) => stageNumber(unit, b) - stageNumber(unit, a))[0] ?? null,
    sentence: conflictSentence(unit, members, words),
  };
};

const stageNumber = (unit: Unit, stage: StageId | null): number => (stage === null ? -1 : (unit.atlas.stages.get(stage)?.number ?? -1));

/** The minimal swap sets of a name, cheapest first, each with its parts and its minutes (S1). */
export const swapSetsOf = (unit: Unit, rule: NameRule, limit = defaultLimit): SwapSets => {
  const { found, complete } = swapsFor(unit, rule, limit);
  const swaps = found.map(({ slots, parts, leaves }) => {
    const compiled = slots.map((slot) => unit.atlas.slots[slot] as CompiledSlot);
    return {
      slots: compiled.map(({ slot }) => slot.id),
      parts: compiled.map(({ slot, parts: all }, i) => ({
        slot: slot.id,
        parts: (parts[i] as readonly number[]).flatMap((part) => all[part]?.id ?? []),
      })),
      minutes:
        compiled.reduce((sum, { slot }) => sum + slot.swapMinutes, 0) +
        stripDownMinutes(
          unit.atlas,
          compiled.map(({ slot }) => slot.stage),
        ),
      leaves,
    };
  });
  return {
    complete,
    found: swaps.sort((a, b) => a.minutes - b.minutes || a.slots.length - b.slots.length || (a.slots.join() < b.slots.join() ? -1 : 1)),
  };
};
