import type { Fact } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { FamilyId, FeatureId, Id, MakerId, PartId, SlotId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';
import type { Draw } from './draw.ts';

/** What a person can be drilled on; a topic is of one kind and is scheduled by itself. */
export const drillKinds = ['looks', 'swapped', 'name', 'check', 'descent', 'grammar'] as const;
export type DrillKind = (typeof drillKinds)[number];

/** What a learner is shown: only what is seen or counted, with sizes to about 3 mm where they differ by more; or sizes as instruments read them too. */
export const drillLevels = ['by eye', 'measured'] as const;
export type DrillLevel = (typeof drillLevels)[number];

export type TopicId = Id<'topic'>;

interface TopicHead {
  readonly id: TopicId;
  readonly level: DrillLevel;
  /** In words: `Petrel and Northquay told apart`. */
  readonly text: string;
}
export type Topic = TopicHead &
  (
    | { readonly kind: 'looks'; readonly families: readonly [FamilyId, FamilyId] }
    | { readonly kind: 'swapped'; readonly family: FamilyId; readonly slot: SlotId }
    | { readonly kind: 'name'; readonly family: FamilyId }
    | { readonly kind: 'check'; readonly family: FamilyId }
    | { readonly kind: 'descent'; readonly family: FamilyId }
    | { readonly kind: 'grammar'; readonly maker: MakerId }
  );

/** What an answer says: the thing that was right to say, or that was said in its place. */
export interface Subject {
  readonly kind: 'maker' | 'family' | 'generation' | 'model' | 'slot' | 'feature' | 'name' | 'text';
  readonly id: string;
  readonly text: string;
}

export interface Choice {
  readonly id: string;
  readonly text: string;
  readonly subject: Subject;
}

export type Facts = Readonly<Record<FeatureId, Fact>>;

/** What is shown of one slot: the part itself where it is known, else what was seen of it, as facts a drawing is made from and in words. */
export interface ShownSlot {
  readonly slot: SlotId;
  readonly part: { readonly id: PartId; readonly name: string } | null;
  readonly facts: Facts;
  readonly says: readonly string[];
}

/**
 * One drill. The same atlas, topic and seed give the same drill on every machine. It holds no answer: `judgeDrill` asks the reasoner
 * each time, of the sheet, the names or the atlas the question is about.
 */
export interface Drill {
  readonly topic: TopicId;
  readonly kind: DrillKind;
  readonly level: DrillLevel;
  readonly seed: number;
  readonly edition: string;
  readonly question: string;
  /** What the question is about beyond its words, where it is about a unit. */
  readonly sheet: Sheet | null;
  readonly shown: readonly ShownSlot[];
  /** One choice; several, said how many; or all of them in order. */
  readonly respond: { readonly kind: 'one' } | { readonly kind: 'several'; readonly count: number } | { readonly kind: 'order' };
  readonly choices: readonly Choice[];
}

/** Ids of choices: the one, the several in any order, or all in order. */
export type Response = readonly string[];

/** A drawing that shows why: one feature of a slot, on each side that differs in it. */
export interface Showing {
  readonly slot: SlotId;
  readonly feature: FeatureId;
  readonly sides: readonly { readonly label: string; readonly facts: Facts }[];
}

/** A family or generation on a line of descent. */
export interface LinePlace {
  readonly kind: 'family' | 'generation';
  readonly id: string;
  readonly family: FamilyId;
  readonly asked: boolean;
}

export interface Judgement {
  readonly right: boolean;
  /** Every response the reasoner accepts; of an order only one where several are. */
  readonly accepted: readonly Response[];
  /** The reasoner's own reasons, the one that decides first. */
  readonly sentences: readonly string[];
  readonly showings: readonly Showing[];
  /** Of an order of descent: everything on the lines that join what was asked, and which of it was asked. */
  readonly line?: readonly LinePlace[];
  /** What was taken for what; null where the response is right. */
  readonly confused: { readonly asked: Subject; readonly answered: Subject } | null;
}

/** How one kind is made and judged. `make` returns null where this throw of the dice gives no fair question. */
export interface Kind<T extends Topic> {
  readonly make: (ground: Ground, topic: T, dice: Draw) => Made | null;
  readonly judge: (ground: Ground, drill: Drill, response: Response) => Judgement;
}
export type Made = Pick<Drill, 'question' | 'sheet' | 'shown' | 'respond' | 'choices'>;

export type Ground = CompiledAtlas;
