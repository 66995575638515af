import type { TreeAnswer } from '../../db/answers.ts';
import type { LinePlace } from '../../reasoner/index.ts';
import { layoutTree, yearsOf } from '../tree/layoutTree.ts';
import { axisPad, gutterWidth, type TreeLayout } from '../tree/treeLayout.ts';
import { keyOf, type TreeKey } from '../tree/treeNode.ts';
import { treeNodes } from '../tree/treeNodes.ts';

/** As much of the tree as a line of descent needs: its families, with their generations where the line runs through those. */
export const cutTo = (tree: TreeAnswer, line: readonly LinePlace[]): TreeAnswer => {
  const families = new Set(line.map(({ family }) => family));
  const unfolded = new Set(line.flatMap(({ kind, family }) => (kind === 'generation' ? [family] : [])));
  const kept = tree.families.filter(({ id }) => families.has(id));
  return {
    // Names a maker traded under would stretch the years beyond the line's.
    makers: tree.makers.filter(({ id }) => kept.some(({ maker }) => maker === id)).map((maker) => ({ ...maker, tradeNames: [] })),
    families: kept,
    generations: tree.generations.filter(({ family }) => unfolded.has(family)),
    models: [],
    shared: [],
  };
};

/** The line laid out by the tree's own rules, as wide as there is room, px. */
export const layoutOfLine = (tree: TreeAnswer, line: readonly LinePlace[], width: number): TreeLayout => {
  const cut = cutTo(tree, line);
  const { first, last } = yearsOf(cut);
  const undated = [...cut.families, ...cut.generations].some(({ from }) => from === null);
  const room = width - axisPad - (undated ? gutterWidth : 0) - 10;
  return layoutTree(cut, treeNodes(cut, new Map(), []), {
    unfolded: { level: 'generations', byHand: new Map() },
    overlays: { patterns: true, tradeNames: false, cores: false, housings: false },
    yearWidth: Math.max(2, room / (last - first)),
  });
};

/** Those that were asked, by their keys in the tree. */
export const askedKeys = (line: readonly LinePlace[]): ReadonlySet<TreeKey> =>
  new Set(line.flatMap(({ kind, id, asked }) => (asked ? [keyOf(kind, id)] : [])));

/** The drawing in words, in the order of the years: `Shearwater from 1979 to 1990, Dunlin from 1984`. */
export const sayLine = ({ boxes }: TreeLayout): string =>
  [...boxes]
    .sort((a, b) => (a.node.from ?? Number.POSITIVE_INFINITY) - (b.node.from ?? Number.POSITIVE_INFINITY))
    .map(({ node: { name, from, to, lines } }) =>
      [`${name}${from === null ? ', year not known' : ` from ${from}${to === null ? '' : ` to ${to}`}`}`, lines]
        .filter((each) => each !== '')
        .join(', '),
    )
    .join('; ');
