import { spaceOf } from '../algebra/choices.ts';
import type { Atlas, Part } from '../atlas/atlas.ts';
import type { Fit } from '../fits/fit.ts';
import { judgeJoint } from '../fits/judge-joint.ts';
import type { FeatureId, JointId, PartId, SlotId } from '../ids.ts';
import { noPulse, type Pulse } from '../plain/pulse.ts';
import { changingOf, type FoundJoints, type FoundTable, foundJointsOf, foundTablesOf } from './as-found.ts';
import { compileNames } from './compile-names.ts';
import { type CompiledAtlas, type CompiledJoint, type CompiledSlot, type MadeJoints, slotAt } from './compiled.ts';
import { type FactTable, factTablesOf, readAsMade } from './fact-tables.ts';
import { matingOf } from './mating.ts';

/**
 * Compiles an atlas that has passed the door (every id resolves, every fact is of its feature's kind).
 * @param pulse called by long answers over this atlas as they go
 * @throws on an atlas that has not: that is a bug of the caller
 */
export const compileAtlas = (atlas: Atlas, pulse: Pulse = noPulse): CompiledAtlas => compiledOf(atlas, pulse, null);

/**
 * The same of an atlas as it is after a change, given what was compiled before it. Where no more than parts say something else, each in its place, what does not read what
 * they say is taken over as it is: tables of other features, joints of other slots, names. Otherwise all is compiled.
 */
export const recompileAtlas = (before: CompiledAtlas, atlas: Atlas): CompiledAtlas =>
  compiledOf(atlas, before.pulse, onlyPartsDiffer(before.data, atlas) ? before : null);

const onlyPartsDiffer = ({ edition: _, parts: were, ...before }: Atlas, { edition: __, parts, ...atlas }: Atlas): boolean => {
  const lists = new Set([...Object.keys(before), ...Object.keys(atlas)]) as Set<keyof typeof atlas>;
  return (
    [...lists].every((list) => before[list] === atlas[list]) &&
    were.length === parts.length &&
    were.every((was, at) => {
      const is = parts[at] as Part;
      return was === is || (was.id === is.id && was.slot === is.slot);
    })
  );
};

/** What a part says is no part of a name; which parts it is taken for is. */
const sameNames = (before: readonly Part[], after: readonly Part[]): boolean =>
  before.every((was, at) => was === after[at] || was.supersedes === after[at]?.supersedes);

const compiledOf = (atlas: Atlas, pulse: Pulse, before: CompiledAtlas | null): CompiledAtlas => {
  const slotNumber = new Map(atlas.slots.map((slot, number) => [slot.id, number]));
  const bySlot: Part[][] = atlas.slots.map(() => []);
  for (const part of atlas.parts) {
    const number = slotNumber.get(part.slot);
    if (number === undefined) throw new Error(`part ${part.id} is of slot ${part.slot}, which the atlas does not have`);
    (bySlot[number] as Part[]).push(part);
  }
  /** The slot before, where it had the same parts, and whether none of them says anything else. */
  const earlier = bySlot.map((parts, number) => {
    const slot = before?.slots[number] ?? null;
    return slot === null ? null : { slot, stands: slot.parts.every((part, at) => part === parts[at]) };
  });
  const slotOfPort = new Map(atlas.ports.map((port) => [port.id, port.slot]));
  const ends = atlas.joints.map((joint) => {
    const a = slotNumber.get(slotOfPort.get(joint.a) as SlotId);
    const b = slotNumber.get(slotOfPort.get(joint.b) as SlotId);
    if (a === undefined || b === undefined) throw new Error(`joint ${joint.id} names a port the atlas does not have`);
    if (a === b) throw new Error(`joint ${joint.id} joins a slot to itself`);
    return { joint, a, b };
  });
  const factTables = bySlot.map((parts, number) => {
    const was = earlier[number] ?? null;
    if (was?.stands) return was.slot.factsOf;
    return factTablesOf(parts, was === null ? null : { parts: was.slot.parts, tableOf: was.slot.factsOf });
  });
  const slotOfFeature = new Map(atlas.features.map((feature) => [feature.id, slotNumber.get(feature.slot) as number]));
  const slotOf = (feature: FeatureId): number => slotOfFeature.get(feature) as number;
  const partsIn = bySlot.map((parts) => parts.length);
  const changing = changingOf(atlas.operations ?? []);
  const foundTables = factTables.map((factsOf, number) => {
    const was = earlier[number] ?? null;
    return was?.stands ? was.slot.foundOf : foundTablesOf(changing, factsOf, was?.slot ?? null);
  });
  const asMade = factTables.map(readAsMade);
  let madeJoints: MadeJoints | undefined;
  const made = (): MadeJoints => {
    if (madeJoints === undefined) {
      const { slots, joints } = matingOf(partsIn, ends, slotOf, asMade);
      const counts = slots.map(({ count }) => count);
      madeJoints = { slots, space: spaceOf(counts, joints) };
    }
    return madeJoints;
  };
  const slots = atlas.slots.map((slot, number): CompiledSlot => {
    const was = earlier[number] ?? null;
    const parts = was?.stands ? was.slot.parts : (bySlot[number] as Part[]);
    const own = (): MadeJoints['slots'][number] => made().slots[number] as MadeJoints['slots'][number];
    return {
      data: slot,
      number,
      parts,
      partNumber: was?.slot.partNumber ?? new Map(parts.map((part, i) => [part.id, i])),
      // A found unit asks how its parts may be found, not how they are made: this is worked out for those who ask.
      get matingOf() {
        return own().of;
      },
      get matingCount() {
        return own().count;
      },
      factsOf: factTables[number] as (feature: FeatureId) => FactTable,
      foundOf: foundTables[number] as (feature: FeatureId) => FoundTable,
    };
  });
  const joints = ends.map(({ joint, a, b }, number): CompiledJoint => ({ data: joint, number, a, b }));
  let found: FoundJoints | undefined;
  const compiled: Omit<CompiledAtlas, 'names' | 'housings' | 'familyParts'> = {
    data: atlas,
    pulse,
    made,
    found: () => {
      found ??= foundJointsOf(partsIn, ends, slotOf, (slot, feature) => (slots[slot] as CompiledSlot).foundOf(feature), asMade, changing);
      return found;
    },
    slots,
    joints,
    slotNumber,
    makers: before?.makers ?? new Map(atlas.makers.map((maker) => [maker.id, maker])),
    families: before?.families ?? new Map(atlas.families.map((family) => [family.id, family])),
    models: before?.models ?? new Map(atlas.models.map((model) => [model.id, model])),
    parts: new Map(atlas.parts.map((part) => [part.id, part])),
    features: before?.features ?? new Map(atlas.features.map((feature) => [feature.id, feature])),
    stages: before?.stages ?? new Map(atlas.stages.map((stage, number) => [stage.id, { ...stage, number }])),
  };
  if (before === null || !sameNames(before.data.parts, atlas.parts)) return { ...compiled, ...compileNames(compiled) };
  const { names, housings, familyParts } = before;
  return { ...compiled, names, housings, familyParts };
};

/** Judges two parts at a joint of the atlas (F2), named in either order. @throws when an id is not of the atlas or of the joint */
export const fitOf = (atlas: CompiledAtlas, joint: JointId, one: PartId, other: PartId): Fit => {
  const found = atlas.joints.find((each) => each.data.id === joint);
  const [a, b] = [atlas.parts.get(one), atlas.parts.get(other)];
  if (!found || !a || !b) throw new Error(`no such joint or part in the atlas: ${joint}, ${one}, ${other}`);
  return judgeJoint(found.data, { a: slotAt(atlas, found.a).data.id, b: slotAt(atlas, found.b).data.id }, a, b);
};
