import cytoscape from 'cytoscape';
import type { TreeAnswer } from '../../db/answers.ts';
import { type Atlas, asId, type Id } from '../../reasoner/index.ts';
import { drawTree } from '../../renderer/tree/drawTree.ts';
import { layoutTree } from '../../renderer/tree/layoutTree.ts';
import type { TreeLayout } from '../../renderer/tree/treeLayout.ts';
import type { TreeNodes } from '../../renderer/tree/treeNode.ts';
import { nodesWithoutParts } from '../../renderer/tree/treeNodes.ts';
import { asRatio, inWords, slopeOf, table, timed } from './clock.ts';
import { answered, type DemoDesk } from './demo-desk.ts';

/** What is looked at at once, in px: the window's part of the drawing with what is made ready around it. */
const view = { x0: 0, x1: 2400, y0: 0, y1: 1900 };

/**
 * The family tree unfolded to its models as the atlas grows: its nodes put in order, which is done once for an atlas; its layout, at every fold, zoom and overlay;
 * what is in view of it, drawn. Beside it the layered layout of cytoscape, which knows no years, on the same nodes and lines.
 */
export const treesAsTheyGrow = async ({ desk, atlas }: DemoDesk, scales: readonly number[]): Promise<void> => {
  const demo = answered(await desk['tree.atlas']({}));
  const measured: Measured[] = [];
  for (const times of scales) measured.push(await measure(largerTree(demo, times), atlas));
  const rows = measured.map(({ count, order, layout, drawing, peer }, i) => [
    `${scales[i]}×`,
    String(count),
    inWords(order),
    inWords(layout),
    inWords(drawing),
    peer === null ? 'not tried' : inWords(peer),
    peer === null ? '' : asRatio(peer / layout),
  ]);
  console.log('\nThe family tree down to its models, with every overlay, as the atlas grows (copies of the demo pack), medians.\n');
  console.log(table(['atlas', 'nodes', 'put in order', 'layout', 'view drawn', 'cytoscape, layered', 'cytoscape / layout'], rows));
  const nodes = measured.map(({ count }) => count);
  const slope = (of: (one: Measured) => number) => slopeOf(nodes, measured.map(of)).toFixed(2);
  console.log(
    `Cost grows with the nodes to the power: put in order ${slope(({ order }) => order)}, layout ${slope(({ layout }) => layout)}, view drawn ${slope(({ drawing }) => drawing)}.`,
  );
};

interface Measured {
  readonly count: number;
  readonly order: number;
  readonly layout: number;
  readonly drawing: number;
  /** None above 5,000 nodes, where it takes minutes. */
  readonly peer: number | null;
}

const measure = async (tree: TreeAnswer, atlas: Atlas): Promise<Measured> => {
  const nodes = nodesWithoutParts(tree, atlas.slots);
  const layout = laidOut(tree, nodes);
  const count = tree.makers.length + tree.families.length + tree.generations.length + tree.models.length;
  return {
    count,
    order: (await timed(15, () => nodesWithoutParts(tree, atlas.slots))).median,
    layout: (await timed(25, () => laidOut(tree, nodes))).median,
    drawing: (await timed(25, () => drawTree(layout, () => 'shared').body.shapesIn(view))).median,
    peer: count > 5000 ? null : (await timed(3, () => layered(layout, nodes))).median,
  };
};

const laidOut = (tree: TreeAnswer, nodes: TreeNodes): TreeLayout =>
  layoutTree(tree, nodes, {
    unfolded: { level: 'models', byHand: new Map() },
    overlays: { patterns: true, tradeNames: true, cores: true, housings: true },
    yearWidth: { across: 850, scale: 1 },
  });

/** The same nodes and lines, and what each node stands under, for a library that lays out any directed graph in layers. */
const layered = (layout: TreeLayout, nodes: TreeNodes): void => {
  const data = [
    ...layout.bands.map(({ key }) => ({ data: { id: key } })),
    ...layout.boxes.map(({ key }) => ({ data: { id: key } })),
    ...layout.boxes.map(({ key }) => ({ data: { source: nodes.of.get(key)?.parent ?? '', target: key } })),
    ...layout.lines.map(({ parent, child }) => ({ data: { source: parent, target: child } })),
  ];
  const graph = cytoscape({ headless: true, styleEnabled: false, elements: data });
  graph.layout({ name: 'breadthfirst', directed: true, animate: false, boundingBox: { x1: 0, y1: 0, w: 4000, h: 40_000 } }).run();
  graph.destroy();
};

/** Copies of the demo tree under the same makers; copy k has its own families, generations and models. */
const largerTree = (tree: TreeAnswer, times: number): TreeAnswer => {
  const copies = Array.from({ length: times }, (_, k) => (k === 0 ? tree : copyOf(tree, k)));
  return {
    makers: tree.makers,
    families: copies.flatMap(({ families }) => families),
    generations: copies.flatMap(({ generations }) => generations),
    models: copies.flatMap(({ models }) => models),
    shared: copies.flatMap(({ shared }) => shared),
  };
};

const copyOf = (tree: TreeAnswer, k: number): Omit<TreeAnswer, 'makers'> => {
  const own = <T extends Id<string>>(id: T): T => asId<T>(`${id}~${k}`);
  const orNone = <T extends Id<string>>(id: T | null): T | null => (id === null ? null : own(id));
  return {
    families: tree.families.map((family) => ({
      ...family,
      id: own(family.id),
      name: `${family.name} ${k}`,
      descendsFrom: family.descendsFrom.map(own),
      succeeds: family.succeeds.map(own),
      patternOf: family.patternOf.map(own),
    })),
    generations: tree.generations.map((one) => ({ ...one, id: own(one.id), family: own(one.family), succeeds: orNone(one.succeeds) })),
    models: tree.models.map((model) => ({
      ...model,
      id: own(model.id),
      family: own(model.family),
      generation: orNone(model.generation),
      patternOf: orNone(model.patternOf),
    })),
    shared: tree.shared.map((one) => ({ ...one, families: one.families.map(own), models: one.models.map(own) })),
  };
};
