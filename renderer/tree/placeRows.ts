import { rowHeight } from './treeLayout.ts';
import { isOpen, type TreeKey, type TreeNode, type TreeNodes, type Unfolded } from './treeNode.ts';

/** A node's own row and, down to `y1`, what is unfolded in it; `head` the middle of its own row. */
export interface Row {
  readonly node: TreeNode;
  readonly y0: number;
  readonly y1: number;
  readonly head: number;
  readonly open: boolean;
}

/** A maker's rows; its families as strokes where it is folded. */
export interface BandRow extends Row {
  readonly strokes: readonly { readonly node: TreeNode; readonly y: number }[];
}

export interface PlacedRows {
  readonly bands: readonly BandRow[];
  /** From top to bottom; a node before what is unfolded in it. */
  readonly rows: readonly Row[];
  readonly height: number;
}

const gap = { band: 8, family: 5, child: 2, foot: 4 } as const;

/** Which rows there are, and where, from the top down: years have no part in it, and neither have the parts of a slot, which share its row. */
export function placeRows(nodes: TreeNodes, unfolded: Unfolded): PlacedRows {
  const rows: Row[] = [];
  const bands: BandRow[] = [];
  const inOrder = (key: TreeKey) => nodes.rows.get(key) ?? [];

  /** Places a node and what is unfolded in it from `y` down; returns where it ends. */
  const place = (key: TreeKey, y: number): number => {
    const node = nodes.of.get(key);
    if (node === undefined) return y;
    const height = rowHeight[node.kind === 'maker' || node.kind === 'part' ? 'slot' : node.kind];
    const open = node.kind !== 'slot' && isOpen(nodes, unfolded, node) && node.children.length > 0;
    const row = { node, y0: y, y1: y + height, head: y + height / 2, open };
    rows.push(row);
    if (open) {
      let end = row.y1 + gap.child;
      for (const child of inOrder(key)) end = place(child, end) + gap.child;
      row.y1 = end + (node.kind === 'family' ? gap.foot : 0);
    }
    return row.y1;
  };

  let y = 0;
  for (const key of nodes.roots) {
    const node = nodes.of.get(key);
    if (node === undefined) continue;
    const from = y;
    const open = isOpen(nodes, unfolded, node);
    const strokes: { node: TreeNode; y: number }[] = [];
    y += rowHeight.band + 3;
    for (const family of inOrder(key)) {
      if (open) y = place(family, y) + gap.family;
      else {
        strokes.push({ node: nodes.of.get(family) ?? node, y: y + rowHeight.stroke / 2 });
        y += rowHeight.stroke;
      }
    }
    y += gap.band;
    bands.push({ node, y0: from, y1: y, head: from + rowHeight.band / 2 + 2, open, strokes });
  }
  return { bands, rows, height: y };
}
