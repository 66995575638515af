import type { TreeAnswer } from '../../db/answers.ts';
import { connect } from './connect.ts';
import { placeRows } from './placeRows.ts';
import { widthOf } from './shapes.ts';
import { rankColumns } from './sharedColumns.ts';
import {
  axisPad,
  type Band,
  type Box,
  type Connector,
  gutterWidth,
  type LayoutOptions,
  sharedNameWidth,
  slotNameWidth,
  type TreeLayout,
} from './treeLayout.ts';
import { keyOf, nobody, type TreeKey, type TreeNode, type TreeNodes } from './treeNode.ts';

/** Years after the newest one known, where what is open runs out. */
const openYears = 5;
/** Room after the years, and again after what is shared beside them. */
const pad = 10;
/** A year is never narrower, in px. */
const leastYear = 4;

/**
 * The tree laid out on a time axis: a band for each maker, a row of its own for each family, generations and models in rows inside
 * their family. A function of the atlas and the options alone; the same atlas in any order gives the same places.
 */
export function layoutTree(tree: TreeAnswer, nodes: TreeNodes, options: LayoutOptions): TreeLayout {
  const years = yearsOf(tree);
  const undated = [...tree.families, ...tree.generations, ...tree.models].some(({ from }) => from === null);
  const axisFrom = undated ? gutterWidth + axisPad : axisPad;
  const placed = placeRows(nodes, options.unfolded);
  const columns = rankColumns(tree, nodes, placed, options.overlays);
  const beside = columns.tracks === 0 ? pad : 2 * pad + columns.tracks * columns.trackWidth + sharedNameWidth;
  const yearWidth =
    typeof options.yearWidth === 'number'
      ? options.yearWidth
      : Math.max(leastYear, (options.yearWidth.across - axisFrom - beside) / (years.last - years.first)) * options.yearWidth.scale;
  const xOf = (year: number) => axisFrom + (year - years.first) * yearWidth;
  const axisTo = xOf(years.last);

  /** The years a node stands over: its own, or its place in the gutter. */
  const spanOf = ({ from, to }: Pick<TreeNode, 'from' | 'to'>) =>
    from === null
      ? { x0: 8, x1: gutterWidth - 26, dated: false, openEnd: false }
      : {
          x0: xOf(from),
          x1: to === null ? axisTo : Math.max(xOf(to + 1), xOf(from) + 3),
          dated: true,
          openEnd: to === null,
        };

  const byKey = new Map<TreeKey, Box>();
  // Parts stand one beside another and may reach past the last year.
  let reach = axisTo;
  const boxes = placed.rows.map(({ node, y0, y1, head, open }): Box => {
    const span = node.kind === 'slot' ? slotSpan(byKey.get(node.parent ?? ''), axisFrom) : spanOf(node);
    const box = { key: node.key, node, y0, y1, head, open, x0: span.x0, x1: span.x1, dated: span.dated, openEnd: span.openEnd };
    byKey.set(node.key, box);
    if (node.children.length > 0 && node.kind === 'slot') reach = Math.max(reach, endOfParts(nodes, box));
    return box;
  });
  const bands = placed.bands.map(({ node, y0, y1, head, open, strokes }): Band => {
    const maker = tree.makers.find((one) => node.key !== nobody && keyOf('maker', one.id) === node.key);
    return {
      key: node.key,
      node,
      y0,
      y1,
      head,
      open,
      strokes: strokes.map(({ node: family, y }) => {
        const { x0, x1 } = spanOf(family);
        return { key: family.key, x0, x1, y };
      }),
      tradeNames: options.overlays.tradeNames
        ? (maker?.tradeNames ?? []).map((period) => ({
            ...period,
            x0: xOf(period.from),
            x1: period.to === null ? axisTo : xOf(period.to),
          }))
        : [],
    };
  });

  const partsIn = (slot: Box) => partsBeside(nodes, slot);
  const right = Math.max(reach, axisTo) + pad;
  const namesAt = right + pad + columns.tracks * columns.trackWidth;
  return {
    width: columns.tracks === 0 ? right : namesAt + sharedNameWidth,
    sharedNamesAt: namesAt,
    height: placed.height,
    years,
    axisFrom,
    axisTo,
    yearWidth,
    bands,
    boxes,
    byKey,
    partsIn,
    boxOf: (key) => {
      const slot = byKey.get(nodes.of.get(key)?.parent ?? '');
      return byKey.get(key) ?? (slot?.node.kind === 'slot' ? partsIn(slot).find((part) => part.key === key) : undefined) ?? null;
    },
    lines: linesOf(tree, byKey, { axisFrom, yearWidth, patterns: options.overlays.patterns }),
    columns: columns.at.map((column) => ({ ...column, x: right + pad + column.track * columns.trackWidth })),
  };
}

/** A slot's name begins where its model does. Nothing in it stands at a year. */
const slotSpan = (model: Box | undefined, axisFrom: number) => {
  const x0 = Math.max(model?.x0 ?? axisFrom, axisFrom) + 6;
  return { x0, x1: x0 + slotNameWidth, dated: true, openEnd: false };
};

const partGap = 6;

function partsBeside(nodes: TreeNodes, slot: Box): readonly Box[] {
  const widths = partWidths(nodes, slot.node);
  let x = slot.x1;
  return slot.node.children.flatMap((key, index): Box[] => {
    const node = nodes.of.get(key);
    if (node === undefined) return [];
    const box = { ...slot, key, node, x0: x, x1: x + (widths[index] ?? 0) };
    x = box.x1 + partGap;
    return [box];
  });
}

/** Where the last part of a slot ends. */
function endOfParts(nodes: TreeNodes, slot: Box): number {
  let [x, end] = [slot.x1, slot.x1];
  for (const width of partWidths(nodes, slot.node)) {
    end = x + width;
    x = end + partGap;
  }
  return end;
}

/** Slots whose parts have been measured: a node never changes, and there are many. */
const measured = new WeakMap<TreeNode, readonly number[]>();

function partWidths(nodes: TreeNodes, slot: TreeNode): readonly number[] {
  const known = measured.get(slot);
  if (known !== undefined) return known;
  const widths = slot.children.map((key) => widthOf(nodes.of.get(key)?.name ?? '', 11, 400) + 24);
  measured.set(slot, widths);
  return widths;
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
