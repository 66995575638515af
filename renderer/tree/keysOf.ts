import type { TreeKey, TreeNodes } from './treeNode.ts';

/** Every place these nodes have in the tree: a part stands under each of its models. */
export function keysOf(nodes: TreeNodes, refs: readonly { readonly kind: string; readonly id: string }[]): ReadonlySet<TreeKey> {
  const wanted = new Set(refs.map(({ kind, id }) => `${kind} ${id}`));
  const keys = new Set<TreeKey>([...wanted].filter((key) => nodes.of.has(key)));
  if (refs.some(({ kind }) => kind === 'part'))
    for (const { key, ref } of nodes.of.values()) if (ref !== null && wanted.has(`${ref.kind} ${ref.id}`)) keys.add(key);
  return keys;
}
