import { axisHeight, legendHeight, marginWidth } from './drawing.ts';
import { type Tile, tilesOf } from './tiles.ts';
import type { TreeLayout } from './treeLayout.ts';

export type Paper = 'A4' | 'A3';
const stands = ['lying', 'standing'] as const;
export type Stand = (typeof stands)[number];

/** Inside margins of 10 mm on every side, the longer side first (ISO 216), and a millimetre less down, so that no browser begins another page. */
const sides = { A4: [277, 190], A3: [400, 277] } as const;

/** The smallest letters of a drawing, px. */
const smallest = 11;
/** No letter on paper is smaller, in points of 1/72 inch. */
export const leastPoints = 7;
/** Px of the drawing to a millimetre, where its smallest letters come out at 7.25 points: a little over the least, for what a printer’s driver takes. */
export const pxPerMm = smallest / (7.25 * (25.4 / 72));

/** Under every sheet: what the signs mean, and which sheet of what it is. */
export const footHeight = legendHeight + 16;

export interface SheetSize {
  /** Of the page inside its margins, mm. */
  readonly mm: { readonly width: number; readonly height: number };
  /** The most of a drawing that goes on it, px. */
  readonly px: { readonly width: number; readonly height: number };
}

export function sheetSize(paper: Paper, stand: Stand): SheetSize {
  const [long, short] = sides[paper];
  const mm = stand === 'lying' ? { width: long, height: short - 1 } : { width: short, height: long - 1 };
  return { mm, px: { width: mm.width * pxPerMm, height: mm.height * pxPerMm } };
}

export interface PaperPlan {
  readonly paper: Paper;
  readonly stand: Stand;
  readonly layout: TreeLayout;
  readonly tiles: readonly Tile[];
}

/** How much larger than the least the letters of a drawing are tried, where it then fits on one sheet. */
const larger = [1.6, 1.3];

/**
 * A drawing of the tree on paper, its letters 7 points or larger: on as few sheets as it takes, all lying or all standing, lying where either
 * takes as many. What fits on one sheet is larger there, as far as the sheet lets it.
 * @param layoutFor the tree laid out for so much room across, px
 */
export function paperPlan(paper: Paper, layoutFor: (across: number) => TreeLayout): PaperPlan {
  const planOf = (stand: Stand, scale: number): PaperPlan => {
    const { width, height } = sheetSize(paper, stand).px;
    const across = width / scale - marginWidth;
    const layout = layoutFor(across);
    return { paper, stand, layout, tiles: tilesOf(layout, across, height / scale - axisHeight - footHeight) };
  };
  for (const scale of larger)
    for (const stand of stands) {
      const plan = planOf(stand, scale);
      if (plan.tiles.length === 1) return plan;
    }
  const [lying, standing] = [planOf('lying', 1), planOf('standing', 1)];
  return standing.tiles.length < lying.tiles.length ? standing : lying;
}
