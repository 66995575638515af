import type { ChoiceSpace } from '../algebra/choices.ts';
import { meet, type Pairing } from '../algebra/pairing.ts';
import type { Atlas, Family, Feature, Joint, Maker, Model, Part, Slot, Stage } from '../atlas/atlas.ts';
import type { FamilyId, FeatureId, MakerId, ModelId, PartId, SlotId, StageId } from '../ids.ts';
import type { Pulse } from '../plain/pulse.ts';
import type { FoundJoints, FoundTable } from './as-found.ts';
import type { FactTable } from './fact-tables.ts';
import type { NameRule } from './name-rule.ts';

/** The atlas in the form that is reasoned over: slots and parts by number, mating tables, name rules. Built once per edition. */
export interface CompiledAtlas {
  /** The atlas as it was handed over. */
  readonly data: Atlas;
  /** Of whoever compiled it: long answers over the atlas call it as they go. */
  readonly pulse: Pulse;
  readonly slots: readonly CompiledSlot[];
  readonly joints: readonly CompiledJoint[];
  /** How parts meet as they are made; worked out when first asked for. */
  readonly made: () => MadeJoints;
  /** How parts meet in a unit as found, where any may have been machined (J1); worked out when first asked for. */
  readonly found: () => FoundJoints;
  /** Every name that needs no housing of another family; hybrids are formed when a unit calls for them. */
  readonly names: readonly NameRule[];
  readonly housings: HousingOrigins;
  /** Names of families' parts that are of no one model, formed when a unit calls for them. */
  readonly familyParts: readonly FamilyParts[];
  readonly slotNumber: ReadonlyMap<SlotId, number>;
  readonly makers: ReadonlyMap<MakerId, Maker>;
  readonly families: ReadonlyMap<FamilyId, Family>;
  readonly models: ReadonlyMap<ModelId, Model>;
  readonly parts: ReadonlyMap<PartId, Part>;
  readonly features: ReadonlyMap<FeatureId, Feature>;
  readonly stages: ReadonlyMap<StageId, Stage & { readonly number: number }>;
}

export interface CompiledSlot {
  /** The slot as the atlas says it; `data` of a joint likewise. */
  readonly data: Slot;
  readonly number: number;
  readonly parts: readonly Part[];
  readonly partNumber: ReadonlyMap<PartId, number>;
  /** Parts of one mating class meet every neighbour alike, all as made. Class of each part. */
  readonly matingOf: Int32Array;
  readonly matingCount: number;
  /** The distinct facts of a feature over the parts, and which of them each part has; a missing fact is `not known`. */
  readonly factsOf: (feature: FeatureId) => FactTable;
  /** The same with what operations could have left (O2). */
  readonly foundOf: (feature: FeatureId) => FoundTable;
}

export interface CompiledJoint {
  readonly data: Joint;
  readonly number: number;
  /** Slot numbers of the two ports. */
  readonly a: number;
  readonly b: number;
}

/** How parts meet as they are made: two classes meet where the joint holds or is not known. */
export interface MadeJoints {
  /** By slot number: the mating class of each part, and how many there are. */
  readonly slots: readonly { readonly of: Int32Array; readonly count: number }[];
  /** Its pairings are numbered as the joints. */
  readonly space: ChoiceSpace;
}

/** Parts of a family that are of no one model of it: said where each of those is ruled out, whatever the plate. */
export interface FamilyParts {
  readonly rule: NameRule;
  readonly noneOf: readonly NameRule[];
}

/** The housings a model, or the models of a maker's family, list in a slot, and whether such a list is open-ended. */
export interface HousingList {
  readonly parts: ReadonlySet<number>;
  readonly open: boolean;
}

/** What each housing slot may hold when a housing is said to be of a family, and when it is the core's own models'. */
export interface HousingOrigins {
  readonly ofFamily: ReadonlyMap<FamilyId, readonly (HousingList | null)[]>;
  readonly ofModel: ReadonlyMap<ModelId, readonly (HousingList | null)[]>;
}

/** The atlas as far as it is compiled when names are made. */
export type Ground = Omit<CompiledAtlas, 'names' | 'housings' | 'familyParts'>;

/** The slot with this number; numbers come from the atlas itself. */
export const slotAt = (atlas: Pick<CompiledAtlas, 'slots'>, number: number): CompiledSlot => atlas.slots[number] as CompiledSlot;

/** Whether a joint does not fail between two parts as they are made, of its slots `a` and `b`, by their numbers. */
export const goTogether = (atlas: Pick<CompiledAtlas, 'slots' | 'made'>, joint: CompiledJoint, a: number, b: number): boolean =>
  meet(
    atlas.made().space.pairings[joint.number] as Pairing,
    slotAt(atlas, joint.a).matingOf[a] as number,
    slotAt(atlas, joint.b).matingOf[b] as number,
  );
