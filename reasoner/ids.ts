/**
 * Branded ids: a part's id cannot be handed over where a model's is wanted.
 * At run time they are plain strings, as written in the atlas pack.
 */
declare const brand: unique symbol;
export type Id<Kind extends string> = string & { readonly [brand]: Kind };

export type SlotId = Id<'slot'>;
export type StageId = Id<'stage'>;
export type PortId = Id<'port'>;
export type FeatureId = Id<'feature'>;
export type JointId = Id<'joint'>;
export type MakerId = Id<'maker'>;
export type FamilyId = Id<'family'>;
export type GenerationId = Id<'generation'>;
export type ModelId = Id<'model'>;
export type PartId = Id<'part'>;
export type SourceId = Id<'source'>;
export type RatesId = Id<'rates'>;
export type MetalId = Id<'metal'>;
export type InstrumentId = Id<'instrument'>;
export type WarmthId = Id<'warmth'>;
export type DrawingId = Id<'drawing'>;
export type TermId = Id<'term'>;
export type GrammarTokenId = Id<'grammar token'>;
export type SheetId = Id<'sheet'>;
export type ObservationId = Id<'observation'>;
/** A name the reasoner judges: a rung of the ladder with what it is made of, e.g. `model:petrel-13`. */
export type NameId = Id<'name'>;

/** Marks a plain string as an id, at the border where its kind is known. */
export const asId = <T extends Id<string>>(text: string): T => text as T;
