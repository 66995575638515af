import type { Conflict, Conflicts, Member, SwapSet, SwapSets } from '../answer/verdict.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { CompiledSlot } from '../compile/compiled.ts';
import type { NameRule } from '../compile/name-rule.ts';
import { familyName, fullName } from '../compile/name-texts.ts';
import type { ModelId, SlotId, StageId } from '../ids.ts';
import { levelOf } from '../names/rank.ts';
import type { Observation } from '../sheet/sheet.ts';
import type { Unit } from '../unit/unit.ts';
import { conflictSentence, type NameInWords } from '../words/conflict-sentence.ts';
import { conflictsFor, type Effort, membersOf, usualEffort } from './conflicts-for.ts';
import { inOrderOfK1, stageNumber } from './order-of-reasons.ts';
import { stripDownMinutes } from './strip-down.ts';
import { type Swap, type Swapped, swapsFor } from './swaps-for.ts';

/** The minimal conflicts of a name, in the order of K1 and in words (K2). */
export const conflictsOf = (unit: Unit, rule: NameRule, effort: Effort = usualEffort): Conflicts =>
  inWords(unit, rule, { text: spokenName(unit, rule), demands: rule.demands, oneOf: severalOf(unit, rule) }, effort);

/** A model is spoken of by its name on every rung; what is set aside on a rung does not belong in a sentence about what is asked. */
const spokenName = (unit: Unit, { name }: NameRule): string => {
  const model = levelOf(name.rung) === 'model' ? unit.atlas.models.get(name.models[0] as ModelId) : undefined;
  return model ? fullName(unit.atlas, model) : `the ${name.text}`;
};

/** What such a name is one of: `model of the Merrowby Gannet family`; null of any other. */
const severalOf = (unit: Unit, { name, anyOf }: NameRule): string | null => {
  const family = name.family === null ? undefined : unit.atlas.families.get(name.family);
  if (anyOf === null || family === undefined) return null;
  const kind = anyOf[0]?.name.rung === 'pattern core' ? 'pattern core after' : anyOf[0]?.name.rung === 'core' ? 'core of' : 'model of';
  return `${kind} the ${familyName(unit.atlas, family)} family`;
};

/** The minimal conflicts of the unit with itself: every slot that holds something is to hold a listed part, and no name is asked for. */
export const unitConflicts = (unit: Unit, effort: Effort = usualEffort): Conflicts => {
  // A slot that holds nothing is no disagreement, nor is one of which the atlas lists no part at all; they are left out.
  const silent = unit.slots.map(({ absent, of }) => absent || of.parts.length === 0);
  if (unit.selfConflicts.every((slots) => slots.some((slot) => silent[slot])))
    return { found: [], complete: true, independent: { count: 0, exact: true } };
  // Nor is a plate whose number is not listed: it is what it says, as far as anybody knows.
  const any = unit.slots.map((slot, i) => (silent[i] || slot.unlisted !== null ? null : new Set(slot.of.parts.keys())));
  const nameless = unit.atlas.names.at(-1) as NameRule;
  return inWords(unit, { ...nameless, demands: any }, null, effort);
};

const inWords = (unit: Unit, rule: NameRule, words: NameInWords | null, effort: Effort): Conflicts => {
  const { found, complete, independent } = conflictsFor(unit, rule, effort);
  const members = membersOf(unit, rule);
  const conflicts = found.map((labels) => {
    unit.atlas.pulse();
    return conflictOf(
      unit,
      labels.map((label) => members[label] as Member),
      words,
    );
  });
  return { found: inOrderOfK1(unit, conflicts), complete, independent };
};

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
        const joint = unit.atlas.joints.find((each) => each.data.id === member.joint);
        if (joint) for (const end of [joint.a, joint.b]) slots.add((unit.atlas.slots[end] as CompiledSlot).data.id);
        break;
      }
    }
  }
  return {
    members,
    slots: unit.atlas.slots.flatMap(({ data: slot }) => (slots.has(slot.id) ? [slot.id] : [])),
    minutes: stripDownMinutes(unit.atlas, stages),
    stage: [...stages].sort((a, b) => stageNumber(unit.atlas, b) - stageNumber(unit.atlas, a))[0] ?? null,
    sentence: conflictSentence(unit, members, words),
  };
};

/**
 * The minimal swap sets of a name, each with its parts and its minutes (S1): cheapest first; then those not enough by themselves; last those in which a nameplate
 * stands, which is nothing to exchange and takes no minutes. What its parts need before they go on is not asked here (`swapSetsWithNeeds`).
 * @param swapped the unit as it would be after a swap; found units are judged anew unless it says otherwise
 */
export const swapSetsOf = (unit: Unit, rule: NameRule, swapped?: Swapped): SwapSets => {
  const { found, complete } = swapsFor(unit, rule, swapped);
  return { complete, found: found.map((swap) => swapSetOf(unit, swap)).sort(inOrderOfS1) };
};

/** A swap with its parts by their ids and its minutes, what the parts need left out. */
export const swapSetOf = (unit: Unit, { slots, parts, leaves }: Swap): SwapSet => {
  const all = slots.map((slot, i) => ({ of: unit.atlas.slots[slot] as CompiledSlot, parts: parts[i] as readonly number[] }));
  const exchanged = all.filter(({ of }) => of.data.group !== 'plate');
  return {
    slots: all.map(({ of }) => of.data.id),
    parts: exchanged.map(({ of, parts: numbers }) => ({
      slot: of.data.id,
      parts: numbers.flatMap((part) => of.parts[part]?.id ?? []),
      needs: [],
    })),
    plates: all.flatMap(({ of }) => (of.data.group === 'plate' ? [of.data.id] : [])),
    minutes:
      exchanged.reduce((sum, { of }) => sum + of.data.swapMinutes, 0) +
      stripDownMinutes(
        unit.atlas,
        exchanged.map(({ of }) => of.data.stage),
      ),
    work: 0,
    leaves,
  };
};

/** Cheapest first, then fewest slots; behind them what is not enough by itself, and last what only a maker can do. */
export const inOrderOfS1 = (a: SwapSet, b: SwapSet): number =>
  standing(a) - standing(b) || a.minutes - b.minutes || a.slots.length - b.slots.length || (a.slots.join() < b.slots.join() ? -1 : 1);

const standing = ({ plates, leaves }: SwapSet): number => (plates.length > 0 ? 2 : leaves === 'ruled out' ? 1 : 0);
