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
export const compileAtlas = (atlas: Atlas, pulse: Pulse = noPulse): CompiledAtlas => {
  const slotNumber = new Map(atlas.slots.map((slot, number) => [slot.id, number]));
  const bySlot: Part[][] = atlas.slots.map(() => []);
  for (const part of atlas.parts) {
    const number = slotNumber.get(part.slot);
    if (number === undefined) throw new Error(`part ${part.id} is of slot ${part.slot}, which the atlas does not have`);
    (bySlot[number] as Part[]).push(part);
  }
  const slotOfPort = new Map(atlas.ports.map((port) => [port.id, port.slot]));
  const ends = atlas.joints.map((joint) => {
    const a = slotNumber.get(slotOfPort.get(joint.a) as SlotId);
    const b = slotNumber.get(slotOfPort.get(joint.b) as SlotId);
    if (a === undefined || b === undefined) throw new Error(`joint ${joint.id} names a port the atlas does not have`);
    if (a === b) throw new Error(`joint ${joint.id} joins a slot to itself`);
    return { joint, a, b };
  });
  const factTables = bySlot.map((parts) => factTablesOf(parts));
  const slotOfFeature = new Map(atlas.features.map((feature) => [feature.id, slotNumber.get(feature.slot) as number]));
  const slotOf = (feature: FeatureId): number => slotOfFeature.get(feature) as number;
  const partsIn = bySlot.map((parts) => parts.length);
  const changing = changingOf(atlas.operations ?? []);
  const foundTables = factTables.map((factsOf) => foundTablesOf(changing, factsOf));
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
    const parts = bySlot[number] as Part[];
    const own = (): MadeJoints['slots'][number] => made().slots[number] as MadeJoints['slots'][number];
    return {
      data: slot,
      number,
      parts,
      partNumber: new Map(parts.map((part, i) => [part.id, i])),
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
    makers: new Map(atlas.makers.map((maker) => [maker.id, maker])),
    families: new Map(atlas.families.map((family) => [family.id, family])),
    models: new Map(atlas.models.map((model) => [model.id, model])),
    parts: new Map(atlas.parts.map((part) => [part.id, part])),
    features: new Map(atlas.features.map((feature) => [feature.id, feature])),
    stages: new Map(atlas.stages.map((stage, number) => [stage.id, { ...stage, number }])),
  };
  return { ...compiled, ...compileNames(compiled) };
};

/** Judges two parts at a joint of the atlas (F2), named in either order. @throws when an id is not of the atlas or of the joint */
export const fitOf = (atlas: CompiledAtlas, joint: JointId, one: PartId, other: PartId): Fit => {
  const found = atlas.joints.find((each) => each.data.id === joint);
  const [a, b] = [atlas.parts.get(one), atlas.parts.get(other)];
  if (!found || !a || !b) throw new Error(`no such joint or part in the atlas: ${joint}, ${one}, ${other}`);
  return judgeJoint(found.data, { a: slotAt(atlas, found.a).data.id, b: slotAt(atlas, found.b).data.id }, a, b);
};
