import type { Version } from '../plain/version.ts';

/** A pack of the atlas, as somebody decides by who looks at what the atlas is made of. */
export interface HeldPack {
  readonly id: string;
  readonly title: string;
  readonly edition: string;
  readonly invented: boolean;
  /** Whether it is the one of the shop's own entries. */
  readonly own: boolean;
  readonly note: string;
  /** Ids of the packs it leans on. */
  readonly leansOn: readonly string[];
  /** On what terms it may be passed on, and who answers for it; null where it says nothing. */
  readonly licence: string | null;
  readonly by: string | null;
  /** Of what it says: what taking it out is made against. */
  readonly version: Version;
  readonly counts: PackCounts;
  /** What keeps it in: packs that lean on it or speak of what only it has. */
  readonly neededBy: readonly NeededBy[];
}

/** What goes with a pack when it goes. */
export interface PackCounts {
  readonly makers: number;
  readonly families: number;
  readonly models: number;
  readonly parts: number;
  readonly samples: number;
  /** Slots, features, joints and the like that no other pack of the atlas holds too. */
  readonly words: number;
  /** What the shop says otherwise than the pack does. */
  readonly ownWords: number;
}

/** Another pack that needs it. */
export interface NeededBy {
  readonly pack: string;
  readonly title: string;
  readonly leans: boolean;
  /** What of it speaks of what only this one has, sort by sort. */
  readonly places: readonly NeededPlace[];
}

export interface NeededPlace {
  /** What the other pack has: `part`, `model`; `allowed` for a part allowed in a model. */
  readonly from: string;
  /** What it speaks of here: `maker`. */
  readonly to: string;
  readonly many: number;
  /** Names of the first of them. */
  readonly names: readonly string[];
}
