import type { TreeAnswer } from '../../db/answers.ts';
import { orderBand } from './orderBand.ts';
import { keyOf, type TreeKey, type TreeNode } from './treeNode.ts';

const names = new Intl.Collator('en', { numeric: true });

/**
 * What stands in the rows under a node, from top to bottom: a maker's families as their lines cross least, generations and models by the year they began,
 * those whose year is not known last; slots as the model has them. It hangs on the atlas alone, not on what is unfolded.
 */
export function rowOrder(tree: TreeAnswer, of: ReadonlyMap<TreeKey, TreeNode>): ReadonlyMap<TreeKey, readonly TreeKey[]> {
  const families = new Map(tree.families.map((family) => [keyOf('family', family.id), family]));
  const year = ({ from }: TreeNode) => from ?? Number.POSITIVE_INFINITY;
  const byYear = (a: TreeNode, b: TreeNode) => year(a) - year(b) || names.compare(a.name, b.name) || (a.key < b.key ? -1 : 1);
  const orderOf = ({ kind, children }: TreeNode): readonly TreeKey[] => {
    switch (kind) {
      case 'maker': {
        const members = children.flatMap((key) => families.get(key) ?? []);
        return orderBand(
          members.map(({ id, from, to, descendsFrom, succeeds }) => ({ id, from, to, parents: [...descendsFrom, ...succeeds] })),
        ).map((id) => keyOf('family', id));
      }
      case 'family':
      case 'generation':
        return children
          .flatMap((key) => of.get(key) ?? [])
          .sort(byYear)
          .map(({ key }) => key);
      case 'model':
      case 'slot':
      case 'part':
        return children;
    }
  };
  const order = new Map<TreeKey, readonly TreeKey[]>();
  for (const node of of.values()) if (node.kind !== 'slot') order.set(node.key, orderOf(node));
  return order;
}
