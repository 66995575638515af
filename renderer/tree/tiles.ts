import type { TreeLayout } from './treeLayout.ts';

/** A piece of the drawing that goes on one sheet of paper; places in the drawing's own px. */
export interface Tile {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
  readonly row: number;
  readonly column: number;
}

/**
 * The drawing cut into pieces no larger than `width` by `height`, without gap or overlap. Cut between rows where a cut between rows is to be had, and between
 * years, so that nothing that can be read is cut in two lengthwise.
 */
export function tilesOf(layout: TreeLayout, width: number, height: number): readonly Tile[] {
  const tiles: Tile[] = [];
  const columns = cuts(layout.width, width, yearEdges(layout));
  const rows = cuts(layout.height, height, rowEdges(layout));
  rows.forEach(([y0, y1], row) => {
    columns.forEach(([x0, x1], column) => {
      tiles.push({ x0, x1, y0, y1, row, column });
    });
  });
  return tiles;
}

/** Where a cut goes through no row: the edges of rows and bands that no other row stands over. */
function rowEdges(layout: TreeLayout): readonly number[] {
  const heads = layout.boxes.map(({ node, head }) => ({ from: head - 11, to: head + 11, kind: node.kind }));
  const edges = [...layout.bands.map(({ y0 }) => y0), ...layout.boxes.map(({ y0 }) => y0 - 1)].sort((a, b) => a - b);
  const taken = heads
    .map(({ from, to, kind }) => (kind === 'family' ? [from, to] : [from + 3, to - 3]))
    .sort((a, b) => (a[0] ?? 0) - (b[0] ?? 0));
  let at = 0;
  let reach = Number.NEGATIVE_INFINITY;
  return edges.filter((edge) => {
    for (; at < taken.length && (taken[at]?.[0] ?? 0) < edge; at += 1) reach = Math.max(reach, taken[at]?.[1] ?? 0);
    return reach <= edge;
  });
}

const yearEdges = (layout: TreeLayout): readonly number[] =>
  Array.from({ length: layout.years.last - layout.years.first + 1 }, (_, index) => layout.axisFrom + index * layout.yearWidth);

/** Pieces of `whole` no longer than `most`, each ending at the last edge that fits, or cut off where none does. */
function cuts(whole: number, most: number, edges: readonly number[]): readonly (readonly [number, number])[] {
  const pieces: [number, number][] = [];
  for (let from = 0; from < whole; ) {
    const furthest = from + most;
    if (furthest >= whole) {
      pieces.push([from, whole]);
      break;
    }
    // A piece less than half as long as it may be would waste more paper than a cut through a row costs.
    const to = edges.filter((edge) => edge <= furthest && edge > from + most / 2).at(-1) ?? furthest;
    pieces.push([from, to]);
    from = to;
  }
  return pieces;
}
