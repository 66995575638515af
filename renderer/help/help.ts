import type { Route } from '../route/route.ts';
import type { Label, Said } from './said.ts';

/** A heading of the help page with what stands under it. */
export interface HelpSection {
  readonly id: string;
  readonly head: string;
  /** Who reads it, or what it is for. */
  readonly lead?: Said;
  /** The screen where it begins, by what that is called there. */
  readonly begins?: { readonly at: Route; readonly is: Label };
  /** What is done, one after the other. */
  readonly steps?: readonly Said[];
  /** What is worth knowing, in no order. */
  readonly notes?: readonly Said[];
}

/** Headings that belong together. */
export interface HelpPart {
  readonly id: string;
  readonly head: string;
  readonly lead?: Said;
  /** Whether its headings are counted. */
  readonly counted?: true;
  readonly sections: readonly HelpSection[];
}
