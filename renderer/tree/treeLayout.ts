import type { TreeShared } from '../../db/answers.ts';
import type { TreeKey, TreeNode, Unfolded } from './treeNode.ts';

/** What is drawn beside the families themselves. */
export interface Overlays {
  readonly patterns: boolean;
  readonly tradeNames: boolean;
  readonly cores: boolean;
  readonly housings: boolean;
}

export interface LayoutOptions {
  readonly unfolded: Unfolded;
  readonly overlays: Overlays;
  /** Pixels for a year; or how many the drawing may take across, years and what stands beside them, before the years are made `scale` times as wide. */
  readonly yearWidth: number | { readonly across: number; readonly scale: number };
}

/** A node's place: `x0` to `x1` its years, `y0` to `y1` its rows with everything unfolded in it; `head` the middle of its own row. */
export interface Box {
  readonly key: TreeKey;
  readonly node: TreeNode;
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
  readonly head: number;
  /** False where the year it began is not known: it then stands in the gutter for that, at no year. */
  readonly dated: boolean;
  /** Its end is "today or not known". */
  readonly openEnd: boolean;
  readonly open: boolean;
}

export interface Band {
  readonly key: TreeKey;
  readonly node: TreeNode;
  readonly y0: number;
  readonly y1: number;
  readonly head: number;
  readonly open: boolean;
  readonly tradeNames: readonly {
    readonly name: string;
    readonly from: number;
    readonly to: number | null;
    readonly x0: number;
    readonly x1: number;
  }[];
  /** The families of a folded maker, as thin strokes. */
  readonly strokes: readonly { readonly key: TreeKey; readonly x0: number; readonly x1: number; readonly y: number }[];
}

export type Point = readonly [x: number, y: number];

/** A line from an older node to a younger one, in level and upright pieces. */
export interface Connector {
  readonly how: 'succeeds' | 'descends from' | 'pattern of';
  /** The older: ancestor, forerunner, or the one copied. */
  readonly parent: TreeKey;
  readonly child: TreeKey;
  readonly points: readonly Point[];
  /**
   * `in time`: never runs backwards. `not dated`: a year at one end is not known, and the line runs through the gutter.
   * `years disagree`: the atlas says the younger began before the older.
   */
  readonly time: 'in time' | 'not dated' | 'years disagree';
}

/** What is shared, as an upright line beside the years with a dot in the row of each node that shares it. */
export interface SharedColumn {
  readonly shared: TreeShared;
  readonly x: number;
  readonly dots: readonly { readonly key: TreeKey; readonly y: number }[];
  /** The row of its words, which no other column's words stand in. */
  readonly saysAt: number;
}

export interface TreeLayout {
  readonly width: number;
  readonly height: number;
  /** First year and last year on the axis; what is open ends at `last`. */
  readonly years: { readonly first: number; readonly newest: number; readonly last: number };
  /** Where the first year is; to its left the gutter for years not known, of no width where all are known. */
  readonly axisFrom: number;
  readonly axisTo: number;
  readonly yearWidth: number;
  readonly bands: readonly Band[];
  /** Every node that has a row of its own, from top to bottom. Parts have none: they stand one beside another in the row of their slot. */
  readonly boxes: readonly Box[];
  readonly byKey: ReadonlyMap<TreeKey, Box>;
  /** The parts in the row of a slot. */
  partsIn(slot: Box): readonly Box[];
  /** Where any node is drawn, a part too; null where it is folded away. */
  boxOf(key: TreeKey): Box | null;
  readonly lines: readonly Connector[];
  readonly columns: readonly SharedColumn[];
  /** Where the words of the columns begin, right of them all. */
  readonly sharedNamesAt: number;
}

export const rowHeight = { band: 22, stroke: 6, family: 20, generation: 18, model: 17, slot: 16 } as const;
export const gutterWidth = 150;
/** Room before the first year, for its figures. */
export const axisPad = 18;
/** Room for what a column of shared parts is called. */
export const sharedNameWidth = 176;
export const slotNameWidth = 132;
/** How much of the tint of every second maker's rows shows. */
export const bandTint = 0.55;
