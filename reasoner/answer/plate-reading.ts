import type { Era } from '../atlas/number-pattern.ts';
import type { FamilyId, FeatureId, MakerId, ModelId, ObservationId, PartId, SlotId } from '../ids.ts';

/** What a plate says, read (O5): what each thing stamped on it tells, and where they do not agree. */
export interface PlateReading {
  readonly stamped: readonly Stamped[];
  readonly disagreements: readonly PlateDisagreement[];
}

/** One thing stamped on the plate and what it tells. */
export interface Stamped {
  readonly observation: ObservationId;
  readonly feature: FeatureId;
  readonly says: 'part number' | 'serial number' | 'trade name' | 'year of make';
  readonly text: string;
  /** Whose it can be: makers that number so, or traded under the name. Empty where no pattern says. */
  readonly makers: readonly MakerId[];
  /** The time it tells of; null where it tells none. */
  readonly made: Era | null;
  /** Parts of the atlas with this number. */
  readonly parts: readonly PartId[];
}

/** Each with the observations it rests on. A pattern that is not known is never a disagreement. */
export type PlateDisagreement = {
  readonly observations: readonly ObservationId[];
} /** The trade name is a maker's that does not make such numbers; `like` makes them so. */ & (
  | {
      readonly kind: 'not this maker’s number';
      readonly says: 'part number' | 'serial number';
      readonly maker: MakerId;
      readonly like: MakerId | null;
    }
  /** News as well: a number nobody lists. `patterned`: it is made as the makers make theirs; else how they make them is not known. `models` is whose it can be. */
  | {
      readonly kind: 'number not listed';
      readonly makers: readonly MakerId[];
      readonly models: readonly ModelId[];
      readonly patterned: boolean;
    }
  | { readonly kind: 'check digit'; readonly maker: MakerId; readonly stamped: string; readonly wanted: string }
  | { readonly kind: 'trade name not in use'; readonly name: string; readonly used: Era; readonly made: Era }
  | { readonly kind: 'years disagree'; readonly serial: Era; readonly year: Era }
  | { readonly kind: 'number of another slot'; readonly slot: SlotId; readonly parts: readonly PartId[] }
  | { readonly kind: 'superseded'; readonly part: PartId; readonly by: PartId; readonly number: string | null }
  /** The plate's number is of models that never had the bearing housing it is on. */
  | { readonly kind: 'not this bearing housing'; readonly models: readonly ModelId[]; readonly slot: SlotId }
  | { readonly kind: 'not the claimed model'; readonly models: readonly ModelId[]; readonly claimed: ModelId }
  /** Older or younger than what the number, or the claim, says it is. */
  | {
      readonly kind: 'out of its time';
      readonly of: 'number' | 'claim';
      readonly models: readonly ModelId[];
      readonly family: FamilyId;
      readonly built: Era;
      readonly made: Era;
    }
);

/**
 * Whether a disagreement is a fault found with the plate. A number superseded, or one nobody lists, is news; and that the plate says another thing than a name the
 * unit is offered under is first held against the offer, which is only told (O1).
 */
export const accusesPlate = (disagreement: PlateDisagreement): boolean => {
  switch (disagreement.kind) {
    case 'superseded':
    case 'number not listed':
    case 'not the claimed model':
      return false;
    case 'out of its time':
      return disagreement.of === 'number';
    default:
      return true;
  }
};
