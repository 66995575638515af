import { agrees } from '../atlas/agree.ts';
import type { Fact, Feature, Model, Part, Role } from '../atlas/atlas.ts';
import { type CompiledAtlas, type CompiledJoint, type CompiledSlot, goTogether } from '../compile/compiled.ts';
import { serviceNameId } from '../compile/name-ids.ts';
import type { NameRule } from '../compile/name-rule.ts';
import { fullName } from '../compile/name-texts.ts';
import { rolesOf } from '../compile/seats.ts';
import { asId, type FamilyId, type FeatureId, type ModelId, type NameId, type ObservationId, type SheetId, type SlotId } from '../ids.ts';
import { instrumentUncertainty } from '../odds/readings.ts';
import type { Observation, Seen, Sheet } from '../sheet/sheet.ts';
import { seenPhrase } from '../words/phrases.ts';
import { roughly, seenByEye, sizeByEye, sizedByEye } from './by-eye.ts';
import type { Draw } from './draw.ts';
import type { DrillLevel, Facts, ShownSlot, Subject } from './drill.ts';

/** Part numbers by slot number; null: the slot holds nothing, or nothing is said of it. */
export type Parts = readonly (number | null)[];

type Roles = Map<ModelId, (ReadonlyMap<number, Role> | null)[]>;
const roles = new WeakMap<CompiledAtlas, Roles>();

/** Which parts a model lists in each slot, successors of listed parts with them. */
export const listedFor = (atlas: CompiledAtlas, model: ModelId): readonly (ReadonlyMap<number, Role> | null)[] => {
  let known = roles.get(atlas);
  if (known === undefined) {
    known = rolesOf(atlas);
    roles.set(atlas, known);
  }
  return known.get(model) ?? [];
};

export const modelsOf = (atlas: CompiledAtlas, family: FamilyId): readonly Model[] =>
  atlas.data.models.filter((model) => model.family === family);

/** The weakest name that says a unit is this model; for a pattern group's, that its core is. */
export const nameToCarry = (atlas: CompiledAtlas, model: Model): NameRule => {
  const maker = atlas.families.get(model.family)?.maker ?? null;
  const wanted = maker === null ? asId<NameId>(`pattern:${model.id}`) : serviceNameId(model.id);
  const found = atlas.names.find(({ name }) => name.id === wanted);
  if (found === undefined) throw new Error(`no name is compiled for the model ${model.id}`);
  return found;
};

/** As it is said: with its maker, or for a pattern group's core with what it is a pattern of. */
export const modelName = (atlas: CompiledAtlas, model: Model): string => {
  const pattern = model.patternOf === null ? undefined : atlas.models.get(model.patternOf);
  return pattern === undefined ? fullName(atlas, model) : `${model.name}, pattern of ${pattern.name}`;
};

export const subjectOfModel = (atlas: CompiledAtlas, model: Model): Subject => ({
  kind: 'model',
  id: model.id,
  text: fullName(atlas, model),
});

/** Slots every model of the family takes its name from. */
export const namingSlots = (atlas: CompiledAtlas, family: FamilyId): ReadonlySet<SlotId> => {
  const rules = modelsOf(atlas, family).map((model) => nameToCarry(atlas, model));
  return new Set(
    atlas.slots.flatMap(({ data: slot, number }) => (rules.every(({ demands }) => (demands[number] ?? null) !== null) ? [slot.id] : [])),
  );
};

/** Whether a part goes together with those in the other slots: no joint between them fails (J1). */
export const goesIn = (atlas: CompiledAtlas, parts: Parts, slot: number, part: number): boolean =>
  atlas.joints.every((joint) => {
    if (joint.a !== slot && joint.b !== slot) return true;
    const [a, b] = [joint.a === slot ? part : (parts[joint.a] ?? null), joint.b === slot ? part : (parts[joint.b] ?? null)];
    return jointHolds(atlas, joint, a, b);
  });

/** Whether a joint does not fail between two parts, of its slots `a` and `b`; where either is missing there is no joint. */
export const jointHolds = (atlas: CompiledAtlas, joint: CompiledJoint, a: number | null, b: number | null): boolean => {
  if (a === null || b === null) return true;
  return goTogether(atlas, joint, a, b);
};

/** A unit as the model's maker would have put it together: one listed part in every slot the model speaks of, all joints holding. Null where the throw found none. */
export const builtAs = (atlas: CompiledAtlas, model: Model, draw: Draw): Parts | null => {
  const listed = listedFor(atlas, model.id);
  const parts: (number | null)[] = atlas.slots.map(() => null);
  for (const slot of draw.shuffled(atlas.slots)) {
    const here = listed[slot.number] ?? null;
    if (here === null) continue;
    const named = [...here].filter(([, role]) => role === 'names').map(([part]) => part);
    const usual = named.length > 0 ? named : [...here.keys()];
    const fitting = draw.any(usual.filter((part) => goesIn(atlas, parts, slot.number, part)));
    if (fitting === undefined) return null;
    parts[slot.number] = fitting;
  }
  return parts;
};

export const partAt = (atlas: CompiledAtlas, slot: number, part: number): Part => (atlas.slots[slot] as CompiledSlot).parts[part] as Part;

/**
 * What a careful person would write down of one feature of a good part: a count or choice as it is, a measure somewhere within the limits, read to the
 * instrument's step (u = step/√3), or by eye as far as that goes. Null where the atlas does not know, or it is not for this level.
 */
export const observed = (feature: Feature, fact: Fact | undefined, draw: Draw, level: DrillLevel = 'measured'): Observation | null => {
  if (fact === undefined || fact.kind === 'not known') return null;
  const read = seenOf(feature, fact, draw);
  const value = level === 'by eye' && read !== null ? taken(feature, read) : read;
  if (value === null) return null;
  const u = level === 'by eye' ? roughly.u : instrumentUncertainty(feature) || 0.02;
  const observation: Observation = {
    id: asId<ObservationId>(`seen-${feature.id}`),
    slot: feature.slot,
    feature: feature.id,
    value,
    sure: value.kind === 'measure' ? { kind: 'measured', u } : { kind: 'seen' },
  };
  return agrees(feature, fact, observation) === 'holds' ? observation : null;
};

/** What is left of a reading for whoever has only eyes and a rule. */
const taken = (feature: Feature, value: Seen): Seen | null => {
  if (value.kind !== 'measure') return seenByEye(feature) ? value : null;
  const size = sizedByEye(feature) ? sizeByEye(value.value) : null;
  return size === null ? null : { kind: 'measure', value: size };
};

const seenOf = (feature: Feature, fact: Exclude<Fact, { kind: 'not known' }>, draw: Draw): Seen | null => {
  switch (fact.kind) {
    case 'count': {
      const count = fact.from + draw.below(fact.to - fact.from + 1);
      return { kind: 'count', from: count, to: count };
    }
    case 'measure': {
      const step = feature.resolution ?? 0.01;
      const size = fact.nominal + fact.lower + (fact.upper - fact.lower) * (0.25 + draw.even() / 2);
      return { kind: 'measure', value: Number((Math.round(size / step) * step).toFixed(4)) };
    }
    case 'choice': {
      const option = draw.any(fact.anyOf);
      return option === undefined ? null : { kind: 'choice', option };
    }
    case 'presence':
      return { kind: 'presence', present: fact.present };
    case 'mark': {
      const text = draw.any(fact.blank ? [...fact.anyOf, null] : fact.anyOf);
      return text === undefined ? null : { kind: 'mark', text };
    }
  }
};

/** Whether no part this name allows in the feature's slot could have shown this. */
export const tellsOut = (atlas: CompiledAtlas, rule: NameRule, feature: Feature, observation: Observation): boolean => {
  const slot = atlas.slots[atlas.slotNumber.get(feature.slot) as number] as CompiledSlot;
  const demand = rule.demands[slot.number] ?? null;
  if (demand === null) return false;
  return [...demand].every(
    (part) => agrees(feature, slot.parts[part]?.facts[feature.id] ?? { kind: 'not known' }, observation) === 'fails',
  );
};

/** What was seen as facts, so that a drawing shows that and no more. */
export const factsSeen = (observations: readonly Observation[]): Facts =>
  Object.fromEntries(observations.map(({ feature, value }) => [feature, factOf(value)])) as Facts;

const factOf = (value: Seen): Fact => {
  switch (value.kind) {
    case 'measure':
      return { kind: 'measure', nominal: value.value, lower: 0, upper: 0 };
    case 'choice':
      return { kind: 'choice', anyOf: [value.option] };
    case 'mark':
      return { kind: 'mark', anyOf: value.text === null ? [] : [value.text], blank: value.text === null };
    case 'count':
    case 'presence':
      return value;
  }
};

export const foundSheet = (observations: readonly Observation[], rest: Partial<Sheet> = {}): Sheet => ({
  id: asId<SheetId>('drill'),
  title: '',
  story: '',
  kind: 'found',
  claimed: null,
  claimedMaker: null,
  observations,
  absent: [],
  chosen: {},
  ...rest,
});

/** The observations slot by slot, in the atlas's order. */
export const shownOf = (atlas: CompiledAtlas, observations: readonly Observation[]): ShownSlot[] =>
  atlas.slots.flatMap(({ data: slot }): ShownSlot[] => {
    const here = observations.filter((observation) => observation.slot === slot.id);
    if (here.length === 0) return [];
    return [
      {
        slot: slot.id,
        part: null,
        facts: factsSeen(here),
        says: here.map((observation) => seenPhrase(atlas.features.get(observation.feature) as Feature, observation)),
      },
    ];
  });

/** Features of a slot that are looks of a level: no letters, and nothing that takes the cutting-up of a good part. */
export const looksOf = (atlas: CompiledAtlas, slot: SlotId, level: DrillLevel = 'measured'): readonly Feature[] =>
  shownFeatures(atlas, slot, level).filter(({ kind }) => kind !== 'mark');

/** The same with letters, where they are for this level: instruments are no help with them, and there they would give everything away. */
export const looksAndLettersOf = (atlas: CompiledAtlas, slot: SlotId, level: DrillLevel): readonly Feature[] =>
  level === 'by eye' ? shownFeatures(atlas, slot, level) : looksOf(atlas, slot, level);

const shownFeatures = (atlas: CompiledAtlas, slot: SlotId, level: DrillLevel): readonly Feature[] => {
  const last = Math.max(1, atlas.data.stages.length - 1);
  return atlas.data.features.filter(
    (feature) =>
      feature.slot === slot &&
      (atlas.stages.get(feature.stage)?.number ?? 0) < last &&
      (level === 'measured' || seenByEye(feature) || sizedByEye(feature)),
  );
};

/** Whether a look may be shown that decides nothing: a size by eye is only shown where it tells. */
export const mayFill = (feature: Feature, level: DrillLevel): boolean => level === 'measured' || seenByEye(feature);

/** The facts of a part a name allows in a slot, the first listed that knows the feature. */
export const factsAllowed = (atlas: CompiledAtlas, rule: NameRule, slot: SlotId, feature: FeatureId): Facts => {
  const number = atlas.slotNumber.get(slot) as number;
  const demand = [...(rule.demands[number] ?? [])].map((part) => partAt(atlas, number, part));
  return (demand.find((part) => (part.facts[feature]?.kind ?? 'not known') !== 'not known') ?? demand[0])?.facts ?? {};
};
