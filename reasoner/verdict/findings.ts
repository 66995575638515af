import type { Conflict, Conflicts, Finding } from '../answer/verdict.ts';
import { compatible } from '../atlas/agree.ts';
import type { Part } from '../atlas/atlas.ts';
import type { ObservationId } from '../ids.ts';
import { type PlateHolder, readPlate } from '../plate/read-plate.ts';
import type { Observation } from '../sheet/sheet.ts';
import { type Group, soleExcluders } from '../unit/groups.ts';
import { isMakersMark } from '../unit/marks.ts';
import { plateHolders, plateOnPattern } from '../unit/plate-on-pattern.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import {
  markSentence,
  plateSentence,
  rivetedSentence,
  toldSentence,
  unconfirmedSentence,
  unlistedSentence,
} from '../words/finding-sentences.ts';
import { machinedAtJointSentence, machinedSentence } from '../words/machined-sentence.ts';
import { disagreementSentence } from '../words/plate-sentences.ts';
import { machinedAtJoints, machinedByReading } from './machined.ts';
import { truthAmong } from './truth-among.ts';

/** What is to be said beside the names: told claims tested, letters that do not belong, plates that disagree, unlisted parts. */
export const findingsOf = (unit: Unit, own: Conflicts): Finding[] => {
  const plates = plateFindings(unit, own);
  return [...plates, ...restOf(unit, plates)];
};

const restOf = (unit: Unit, plates: readonly (Finding & { readonly kind: 'plate' })[]): Finding[] => [
  ...unit.slots.flatMap((slot) => markFindings(unit, slot)),
  ...rivetedFindings(unit),
  ...machinedFindings(unit),
  ...unit.slots.flatMap((slot) => unlistedFindings(slot, plates)),
  ...remarkFindings(unit),
  ...toldFindings(unit),
];

/** O2, J1: slots whose part has been machined, whichever of those left it is. */
const machinedFindings = (unit: Unit): Finding[] => {
  const byReading = machinedByReading(unit).flatMap((candidates, i): Finding[] => {
    const slot = unit.slots[i] as UnitSlot;
    if (candidates.length === 0 || candidates.length < slot.liveParts) return [];
    const told = candidates.flatMap((each) => each.told);
    return [
      {
        kind: 'machined',
        slots: [slot.of.data.id],
        operations: [...new Set(told.flatMap(({ operations }) => operations))],
        observations: [...new Set(told.flatMap(({ observations }) => observations))],
        joint: null,
        sentence: machinedSentence(unit, slot, told),
      },
    ];
  });
  const atJoints = machinedAtJoints(unit).map(
    (at): Finding => ({ kind: 'machined', ...at, observations: [], sentence: machinedAtJointSentence(unit, at) }),
  );
  return [...byReading, ...atJoints];
};

/** Features that tell of work or condition, not of origin, say so themselves. */
const remarkFindings = (unit: Unit): Finding[] =>
  unit.slots.flatMap(({ observations }) =>
    observations.flatMap((observation) =>
      (unit.atlas.features.get(observation.feature)?.remarks ?? []).flatMap(({ value, sentence }): Finding[] =>
        compatible({ value, sure: { kind: 'seen' } }, observation) ? [{ kind: 'remark', observation: observation.id, sentence }] : [],
      ),
    ),
  );

/** O1: what was told and can be tested, each by itself; then, in one sentence, all of which nothing is known yet. */
const toldFindings = (unit: Unit): Finding[] => {
  const told = unit.sheet.observations
    .filter(({ sure }) => sure.kind === 'told')
    .map((observation) => ({ observation, truth: truthAmong(unit, observation.feature, [observation]) }));
  const open = told.flatMap(({ observation, truth }) => (truth === 'not known' ? [observation] : []));
  return [
    ...told.flatMap(({ observation, truth }): Finding[] =>
      truth === 'not known'
        ? []
        : [{ kind: 'told claim', observation: observation.id, truth, sentence: toldSentence(unit, observation, truth) }],
    ),
    ...(open.length === 0
      ? []
      : [{ kind: 'not confirmed', observations: open.map(({ id }) => id), sentence: unconfirmedSentence(unit, open) } as const]),
  ];
};

/** Of a plate that is told already as one no listed plate is like, not once more. Where the atlas lists none, nothing was held against what was seen. */
const unlistedFindings = (slot: UnitSlot, plates: readonly (Finding & { readonly kind: 'plate' })[]): Finding[] =>
  slot.of.parts.length > 0 &&
  slot.agreeing.length === 0 &&
  slot.unlisted === null &&
  !slot.absent &&
  !(slot.of.data.group === 'plate' && plates.some(saysItself(slot)))
    ? [{ kind: 'unlisted part', slot: slot.of.data.id, sentence: unlistedSentence(slot) }]
    : [];

/** Whether a finding rests on what was seen of this slot alone, and on no reading of the maker's patterns. */
const saysItself =
  ({ observations: own }: UnitSlot) =>
  ({ disagreement, observations }: Finding & { readonly kind: 'plate' }): boolean =>
    disagreement === undefined && observations.every((id) => own.some((observation) => observation.id === id));

/** O4: where letters alone keep a part from being listed, what it would be without them. */
const markFindings = (unit: Unit, slot: UnitSlot): Finding[] => {
  if (slot.agreeing.length > 0 || slot.unlisted !== null) return [];
  return unit.evidence.flatMap((evidence, label): Finding[] => {
    if (evidence.kind !== 'observation') return [];
    const observation = slot.observations.find(({ id }) => id === evidence.observation);
    if (observation?.value.kind !== 'mark') return [];
    const but = slot.groups.filter((group) => soleExcluders(group).includes(label)).flatMap((group: Group) => group.parts);
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
    // Which plates bear other letters tells nobody anything; that none bears these is told of the plate already.
    if (reading === 'other letters' && slot.of.data.group === 'plate') return [];
    const finding = {
      kind: 'mark',
      observation: observation.id,
      slot: slot.of.data.id,
      wouldBe: parts.map(({ id }) => id),
      reading,
    } as const;
    return [{ ...finding, sentence: markSentence(unit, slot, observation, parts, reading) }];
  });
};

/** O4: a maker's plate is a maker's name on the bearing housing it is riveted to, whatever that is. */
const rivetedFindings = (unit: Unit): Finding[] => {
  const riveted = plateOnPattern(unit);
  const [observation] = riveted?.observations ?? [];
  if (riveted === null || observation === undefined) return [];
  return [
    {
      kind: 'mark',
      observation,
      slot: riveted.slot,
      wouldBe: riveted.parts,
      reading: 'maker’s plate on a pattern part',
      sentence: rivetedSentence(unit, riveted),
    },
  ];
};

/** Letters that are a maker's: a name it traded under, or letters some part of a maker bears in the same place. */

/**
 * O5: what the plate reader finds, then disagreements among the plate's observations, and between the plate and the bearing housing,
 * that the atlas's plates alone bring to light. Of the same observations the reader's sentence is the plainer one.
 */
const plateFindings = (unit: Unit, own: Conflicts): (Finding & { kind: 'plate' })[] => {
  const holders = holdersOf(unit);
  const read = readPlate(unit.atlas, unit.sheet, holders).disagreements.map((disagreement): Finding & { kind: 'plate' } => ({
    kind: 'plate',
    observations: disagreement.observations,
    disagreement,
    sentence: disagreementSentence(unit.atlas, unit.sheet, disagreement),
  }));
  const restsOn = (observations: readonly ObservationId[]): string => [...observations].sort().join();
  const told = new Set(read.map(({ observations }) => restsOn(observations)));
  const moved = read.some(({ disagreement }) => disagreement?.kind === 'not this bearing housing');
  return [...read, ...plateConflicts(unit, own, holders, moved).filter(({ observations }) => !told.has(restsOn(observations)))];
};

/** The parts a plate is fixed to, as far as they were looked at. */
const holdersOf = (unit: Unit): PlateHolder[] =>
  plateHolders(unit).map((slot) => ({
    slot: slot.of.data.id,
    observations: slot.observations.map(({ id }) => id),
    parts: slot.agreeing.flatMap((group) => (slot.groups[group] as Group).parts).map((part) => slot.of.parts[part] as Part),
  }));

/**
 * The plate is accused only where its own slot is doubtful and the quarrel is the plate's own or between the plate and what it is
 * riveted to (O5). A wheel that is worn or foreign can be held against the plate through a chain of joints just as well as against
 * anything else on the way; that accuses nobody, and is told among the unit's own disagreements. That the plate is on the wrong
 * housing is said once; where the reader has said it (`moved`), not again.
 */
const plateConflicts = (unit: Unit, own: Conflicts, holders: readonly PlateHolder[], moved: boolean): (Finding & { kind: 'plate' })[] => {
  const plate = unit.slots.find(({ of }) => of.data.group === 'plate');
  if (!plate?.doubtful) return [];
  const plateSlot = plate.of.data.id;
  const held = new Set(holders.map(({ slot }) => slot));
  const accusing = own.found.flatMap((conflict: Conflict) => {
    const observations = conflict.members.flatMap((member): ObservationId[] => (member.kind === 'observation' ? [member.observation] : []));
    const seen = observations.map((id) => unit.sheet.observations.find((each) => each.id === id) as Observation);
    if (!seen.some(({ slot }) => slot === plateSlot)) return [];
    if (!conflict.slots.every((slot) => slot === plateSlot || held.has(slot))) return [];
    return [{ kind: 'plate' as const, observations, alone: conflict.slots.length === 1, sentence: plateSentence(unit, conflict, seen) }];
  });
  // A plate that contradicts itself needs no bearing housing to say so.
  const alone = accusing.filter((each) => each.alone);
  const between = moved ? [] : accusing.slice(0, 1);
  return (alone.length > 0 ? alone : between).map(({ alone: _, ...finding }) => finding);
};
