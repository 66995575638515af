import type { TreeAnswer } from '../../db/answers.ts';
import { type Connector, connect } from './connect.ts';
import { orderBand } from './orderBand.ts';
import { widthOf } from './shapes.ts';
import { rankColumns, type SharedColumn } from './sharedColumns.ts';
import { isOpen, keyOf, nobody, type TreeKey, type TreeNode, type TreeNodes, type Unfolded } from './treeNodes.ts';

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
  /** Pixels for a year. */
  readonly yearWidth: number;
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
  readonly boxes: readonly Box[];
  readonly byKey: ReadonlyMap<TreeKey, Box>;
  readonly lines: readonly Connector[];
  readonly columns: readonly SharedColumn[];
  /** Where the words of the columns begin, right of them all. */
  readonly sharedNamesAt: number;
}

export const rowHeight = { band: 22, stroke: 6, family: 20, generation: 18, model: 17, slot: 16 } as const;
const gap = { band: 8, family: 5, child: 2, foot: 4 } as const;
export const gutterWidth = 150;
/** Room before the first year, for its figures. */
export const axisPad = 18;
/** Room for what a column of shared parts is called. */
export const sharedNameWidth = 176;
export const slotNameWidth = 132;
/** Years after the newest one known, where what is open runs out. */
const openYears = 5;

/**
 * The tree laid out on a time axis: a band for each maker, a row of its own for each family, generations and models in rows inside
 * their family. A function of the atlas and the options alone; the same atlas in any order gives the same places.
 */
export function layoutTree(tree: TreeAnswer, nodes: TreeNodes, options: LayoutOptions): TreeLayout {
  const { yearWidth, unfolded } = options;
  const years = yearsOf(tree);
  const undated = [...tree.families, ...tree.generations, ...tree.models].some(({ from }) => from === null);
  const axisFrom = undated ? gutterWidth + axisPad : axisPad;
  const xOf = (year: number) => axisFrom + (year - years.first) * yearWidth;
  const axisTo = xOf(years.last);
  const boxes: Box[] = [];
  const bands: Band[] = [];

  /** The years a node stands over: its own, or its place in the gutter. */
  const span = ({ from, to }: Pick<TreeNode, 'from' | 'to'>) =>
    from === null
      ? { x0: 8, x1: gutterWidth - 26, dated: false, openEnd: false }
      : {
          x0: xOf(from),
          x1: to === null ? axisTo : Math.max(xOf(to + 1), xOf(from) + 3),
          dated: true,
          openEnd: to === null,
        };

  /** Places a node and what is unfolded in it from `y` down; returns where it ends. */
  const place = (node: TreeNode, y: number, x: { readonly from: number } | null): number => {
    if (node.kind === 'slot') return placeSlot(node, y, x?.from ?? axisFrom);
    const at = span(node);
    const height = rowHeight[node.kind === 'maker' || node.kind === 'part' ? 'slot' : node.kind];
    const open = isOpen(nodes, unfolded, node) && node.children.length > 0;
    let end = y + height;
    const index = boxes.length;
    if (open) {
      end += gap.child;
      for (const child of childrenInOrder(nodes, node)) end = place(child, end, { from: Math.max(at.x0, axisFrom) + 6 }) + gap.child;
      end += node.kind === 'family' ? gap.foot : 0;
    }
    boxes.splice(index, 0, {
      key: node.key,
      node,
      ...at,
      y0: y,
      y1: end,
      head: y + height / 2,
      open,
    });
    return end;
  };

  /** A slot's row: its name, then its parts one beside the other, from where its model begins. Nothing in it stands at a year. */
  const placeSlot = (slot: TreeNode, y: number, from: number): number => {
    const [y1, head] = [y + rowHeight.slot, y + rowHeight.slot / 2];
    const row = { y0: y, y1, head, dated: true, openEnd: false, open: false };
    boxes.push({ key: slot.key, node: slot, x0: from, x1: from + slotNameWidth, ...row });
    let x = from + slotNameWidth;
    for (const key of slot.children) {
      const part = nodes.of.get(key);
      if (part === undefined) continue;
      const width = widthOf(part.name, 11, 400) + 24;
      boxes.push({ key, node: part, x0: x, x1: x + width, ...row });
      x += width + 6;
    }
    return y1;
  };

  let y = 0;
  for (const key of nodes.roots) {
    const node = nodes.of.get(key);
    if (node === undefined) continue;
    const from = y;
    const open = isOpen(nodes, unfolded, node);
    const families = familiesInOrder(tree, nodes, node);
    const strokes: Band['strokes'][number][] = [];
    y += rowHeight.band + 3;
    if (open) for (const family of families) y = place(family, y, null) + gap.family;
    else {
      for (const family of families) {
        const { x0, x1 } = span(family);
        strokes.push({ key: family.key, x0, x1, y: y + rowHeight.stroke / 2 });
        y += rowHeight.stroke;
      }
    }
    y += gap.band;
    const maker = tree.makers.find((one) => key !== nobody && keyOf('maker', one.id) === key);
    bands.push({
      key,
      node,
      y0: from,
      y1: y,
      head: from + rowHeight.band / 2 + 2,
      open,
      strokes,
      tradeNames: options.overlays.tradeNames
        ? (maker?.tradeNames ?? []).map((period) => ({
            ...period,
            x0: xOf(period.from),
            x1: period.to === null ? axisTo : xOf(period.to),
          }))
        : [],
    });
  }

  // Parts stand one beside another and may reach past the last year.
  const reach = boxes.reduce((most, { node, x1 }) => (node.kind === 'part' ? Math.max(most, x1) : most), axisTo);
  const byKey = new Map(boxes.map((box) => [box.key, box]));
  const columns = rankColumns(tree, nodes, bands, byKey, options.overlays);
  const right = Math.max(reach, axisTo) + 10;
  const namesAt = right + 10 + columns.tracks * columns.trackWidth;
  return {
    width: columns.tracks === 0 ? right : namesAt + sharedNameWidth,
    sharedNamesAt: namesAt,
    height: y,
    years,
    axisFrom,
    axisTo,
    yearWidth,
    bands,
    boxes,
    byKey,
    lines: linesOf(tree, byKey, { axisFrom, yearWidth, patterns: options.overlays.patterns }),
    columns: columns.at.map((column) => ({ ...column, x: right + 10 + column.track * columns.trackWidth })),
  };
}

/** The axis begins at a fifth year before the oldest and ends some years after the newest year the atlas speaks of; no clock is asked. */
export function yearsOf(tree: TreeAnswer): TreeLayout['years'] {
  const known = [...tree.makers.flatMap(({ tradeNames }) => tradeNames), ...tree.families, ...tree.generations, ...tree.models].flatMap(
    ({ from, to }) => [from, to].filter((year) => year !== null),
  );
  if (known.length === 0) return { first: 1900, newest: 1900, last: 1900 + openYears };
  const [oldest, newest] = known.reduce(([least, most], year) => [Math.min(least, year), Math.max(most, year)], [9999, 0] as [
    number,
    number,
  ]);
  return { first: Math.floor((oldest - 1) / 5) * 5, newest, last: newest + 1 + openYears };
}

/** A maker's families from top to bottom. */
function familiesInOrder(tree: TreeAnswer, nodes: TreeNodes, maker: TreeNode): readonly TreeNode[] {
  const own = new Set(maker.children);
  const order = orderBand(
    tree.families
      .filter(({ id }) => own.has(keyOf('family', id)))
      .map(({ id, from, to, descendsFrom, succeeds }) => ({ id, from, to, parents: [...descendsFrom, ...succeeds] })),
  );
  return order.flatMap((id) => nodes.of.get(keyOf('family', id)) ?? []);
}

/** Generations and models by the year they began, those whose year is not known last; slots as the model has them. */
function childrenInOrder(nodes: TreeNodes, node: TreeNode): readonly TreeNode[] {
  const children = node.children.flatMap((key) => nodes.of.get(key) ?? []);
  if (node.kind === 'model') return children;
  const year = ({ from }: TreeNode) => from ?? Number.POSITIVE_INFINITY;
  return children.sort((a, b) => year(a) - year(b) || a.name.localeCompare(b.name, 'en', { numeric: true }) || (a.key < b.key ? -1 : 1));
}

function linesOf(
  tree: TreeAnswer,
  byKey: ReadonlyMap<TreeKey, Box>,
  at: { readonly axisFrom: number; readonly yearWidth: number; readonly patterns: boolean },
): readonly Connector[] {
  const lines: Connector[] = [];
  const into = new Map<TreeKey, number>();
  const line = (how: Connector['how'], parent: TreeKey, child: TreeKey) => {
    const [a, b] = [byKey.get(parent), byKey.get(child)];
    if (a === undefined || b === undefined || a === b) return;
    const nth = into.get(child) ?? 0;
    into.set(child, nth + 1);
    lines.push(connect(how, a, b, nth, at));
  };
  const byId = <T extends { readonly id: string }>(list: readonly T[]) => [...list].sort((a, b) => (a.id < b.id ? -1 : 1));
  for (const { id, descendsFrom, succeeds, patternOf } of byId(tree.families)) {
    const child = keyOf('family', id);
    for (const parent of [...succeeds].sort()) line('succeeds', keyOf('family', parent), child);
    // A successor is drawn as one, though it may descend as well.
    for (const parent of [...descendsFrom].sort()) if (!succeeds.includes(parent)) line('descends from', keyOf('family', parent), child);
    if (at.patterns) for (const parent of [...patternOf].sort()) line('pattern of', keyOf('family', parent), child);
  }
  for (const { id, succeeds } of byId(tree.generations))
    if (succeeds !== null) line('succeeds', keyOf('generation', succeeds), keyOf('generation', id));
  return lines;
}
