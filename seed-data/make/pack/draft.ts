import type { Fact, Family, Generation, Id, Maker, Model, Role, Sheet } from '../../../reasoner/index.ts';

/**
 * What the makers of this folder hand to the pack writer. Ids are plain strings here; they are branded when a
 * pack is read. Lengths are mm, angles degrees.
 */
export type Plain<T> =
  T extends Id<string>
    ? string
    : T extends readonly (infer Item)[]
      ? readonly Plain<Item>[]
      : T extends object
        ? { readonly [Key in keyof T as Key extends Id<string> ? string : Key]: Plain<T[Key]> }
        : T;

/** A fact as it is written in the pack: a measure may leave its deviations to an ISO 286 code. */
export type FactDraft =
  | Exclude<Fact, { kind: 'measure' }>
  | { readonly kind: 'measure'; readonly nominal: number; readonly lower: number; readonly upper: number }
  | { readonly kind: 'coded measure'; readonly nominal: number; readonly code: string };

export interface PartDraft {
  readonly id: string;
  readonly slot: string;
  readonly name: string;
  readonly maker: string | null;
  readonly numbers: readonly string[];
  readonly patternOf?: string;
  readonly supersedes?: string;
  readonly source: string;
  readonly facts: Readonly<Record<string, FactDraft>>;
  readonly factSources?: Readonly<Record<string, string>>;
}

export interface Allowance {
  readonly model: string;
  readonly slot: string;
  readonly part: string;
  readonly role: Role;
}

export type ModelDraft = Plain<Omit<Model, 'allowed'>>;
export type SheetDraft = Plain<Sheet>;

/** One maker's, or one pattern group's, share of the atlas. */
export interface Chapter {
  readonly makers: readonly Plain<Maker>[];
  readonly families: readonly Plain<Family>[];
  readonly generations: readonly Plain<Generation>[];
  readonly models: readonly ModelDraft[];
  readonly parts: readonly PartDraft[];
  readonly allowed: readonly Allowance[];
}
