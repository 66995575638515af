import type { Part } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../atlas/compile.ts';
import type { ObservationId } from '../ids.ts';
import { type PlateHolder, readPlate } from '../plate/read-plate.ts';
import type { Observation } from '../sheet/sheet.ts';
import { compatible, sameMark } from '../unit/agree.ts';
import type { Group, Unit, UnitSlot } from '../unit/unit.ts';
import { markSentence, plateSentence, toldSentence, unlistedSentence } from '../words/finding-sentences.ts';
import { disagreementSentence } from '../words/plate-sentences.ts';
import { truthAmong } from './truth-among.ts';
import type { Conflict, Conflicts, Finding } from './verdict.ts';

/** What is to be said beside the names: told claims tested, letters that do not belong, plates that disagree, unlisted parts. */
export const findingsOf = (unit: Unit, own: Conflicts): Finding[] => [
  ...plateFindings(unit, own),
  ...unit.slots.flatMap((slot) => markFindings(unit, slot)),
  ...unit.slots.flatMap(unlistedFindings),
  ...remarkFindings(unit),
  ...toldFindings(unit),
];

/** Features that tell of work or condition, not of origin, say so themselves. */
const remarkFindings = (unit: Unit): Finding[] =>
  unit.slots.flatMap(({ observations }) =>
    observations.flatMap((observation) =>
      (unit.atlas.features.get(observation.feature)?.remarks ?? []).flatMap(({ value, sentence }): Finding[] =>
        compatible({ value, sure: { kind: 'seen' } }, observation) ? [{ kind: 'remark', observation: observation.id, sentence }] : [],
      ),
    ),
  );

const toldFindings = (unit: Unit): Finding[] =>
  unit.sheet.observations
    .filter(({ sure }) => sure.kind === 'told')
    .map((observation) => {
      const truth = truthAmong(unit, observation.feature, [observation]);
      return { kind: 'told claim', observation: observation.id, truth, sentence: toldSentence(unit, observation, truth) };
    });

const unlistedFindings = (slot: UnitSlot): Finding[] =>
  slot.agreeing.length === 0 && !slot.absent ? [{ kind: 'unlisted part', slot: slot.of.slot.id, sentence: unlistedSentence(slot) }] : [];

/** O4: where letters alone keep a part from being listed, what it would be without them. */
const markFindings = (unit: Unit, slot: UnitSlot): Finding[] => {
  if (slot.agreeing.length > 0) return [];
  return unit.evidence.flatMap((evidence, label): Finding[] => {
    if (evidence.kind !== 'observation') return [];
    const observation = slot.observations.find(({ id }) => id === evidence.observation);
    if (observation?.value.kind !== 'mark') return [];
    const but = slot.groups.filter(({ violates }) => violates.length === 1 && violates[0] === label).flatMap((group: Group) => group.parts);
    if (but.length === 0) return [];
    const parts = but.map((part) => slot.of.parts[part] as (typeof slot.of.parts)[number]);
    const reading =
      observation.value.text === null
        ? parts.every(({ maker }) => maker !== null)
          ? 'no name where the maker casts one'
          : 'other letters'
        : parts.every(({ maker }) => maker === null) && isMakersMark(unit.atlas, slot, observation)
          ? 'maker’s name on a pattern part'
          : 'other letters';
    const finding = {
      kind: 'mark',
      observation: observation.id,
      slot: slot.of.slot.id,
      wouldBe: parts.map(({ id }) => id),
      reading,
    } as const;
    return [{ ...finding, sentence: markSentence(unit, slot, observation, parts, reading) }];
  });
};

/** Letters that are a maker's: a name it traded under, or letters some part of a maker bears in the same place. */
const isMakersMark = (atlas: CompiledAtlas, slot: UnitSlot, observation: Observation): boolean =>
  makerOfMark(atlas, slot, observation) !== null;

export const makerOfMark = (atlas: CompiledAtlas, slot: UnitSlot, observation: Observation): string | null => {
  const text = observation.value.kind === 'mark' ? observation.value.text : null;
  if (text === null) return null;
  for (const maker of atlas.atlas.makers) {
    if ([maker.name, ...maker.tradeNames.map(({ name }) => name)].some((name) => sameMark(name, text))) return maker.id;
  }
  const bearer = slot.of.parts.find((part) => {
    const fact = part.facts[observation.feature];
    return part.maker !== null && fact?.kind === 'mark' && fact.anyOf.some((letters) => sameMark(letters, text));
  });
  return bearer?.maker ?? null;
};

/**
 * O5: what the plate reader finds, then disagreements among the plate's observations, and between the plate and the bearing housing,
 * that the atlas's plates alone bring to light. Of the same observations the reader's sentence is the plainer one.
 */
const plateFindings = (unit: Unit, own: Conflicts): Finding[] => {
  const read = readPlate(unit.atlas, unit.sheet, holdersOf(unit)).disagreements.map((disagreement): Finding & { kind: 'plate' } => ({
    kind: 'plate',
    observations: disagreement.observations,
    disagreement,
    sentence: disagreementSentence(unit.atlas, unit.sheet, disagreement),
  }));
  const restsOn = (observations: readonly ObservationId[]): string => [...observations].sort().join();
  const told = new Set(read.map(({ observations }) => restsOn(observations)));
  return [...read, ...plateConflicts(unit, own).filter((finding) => finding.kind !== 'plate' || !told.has(restsOn(finding.observations)))];
};

/** The parts a plate is fixed to, across a joint of the atlas. */
const holdersOf = (unit: Unit): PlateHolder[] => {
  const plate = unit.slots.findIndex(({ of }) => of.slot.group === 'plate');
  return unit.atlas.joints.flatMap(({ a, b }) => {
    const other = a === plate ? b : b === plate ? a : null;
    const slot = other === null ? undefined : unit.slots[other];
    if (slot === undefined) return [];
    const parts = slot.agreeing.flatMap((group) => (slot.groups[group] as Group).parts).map((part) => slot.of.parts[part] as Part);
    return [{ slot: slot.of.slot.id, observations: slot.observations.map(({ id }) => id), parts }];
  });
};

const plateConflicts = (unit: Unit, own: Conflicts): Finding[] => {
  const plate = unit.slots.find(({ of }) => of.slot.group === 'plate');
  if (!plate) return [];
  const plateSlot = plate.of.slot.id;
  const aboutPlate = own.found.filter(({ slots }) => slots.includes(plateSlot));
  const fewest = Math.min(...aboutPlate.map(({ slots }) => slots.length));
  // A plate that contradicts itself, or its bearing housing, needs no longer chain of joints to say so.
  return aboutPlate.flatMap((conflict: Conflict): Finding[] => {
    if (conflict.slots.length > fewest) return [];
    const observations = conflict.members.flatMap((member): ObservationId[] => (member.kind === 'observation' ? [member.observation] : []));
    const seen = observations.map((id) => unit.sheet.observations.find((each) => each.id === id) as Observation);
    if (!seen.some(({ slot }) => slot === plateSlot)) return [];
    return [{ kind: 'plate', observations, sentence: plateSentence(unit, conflict, seen) }];
  });
};
