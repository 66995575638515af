import { useMemo } from 'react';
import { useAsk } from '../bridge/useAsk.ts';
import type { Picks } from '../route/picks.ts';
import { keysOf } from './keysOf.ts';
import type { TreeNodes } from './treeNode.ts';

/** What is picked, as the keys of its nodes, and how the two picked are related: the answer, and the nodes on the way. */
export function usePicked(nodes: TreeNodes, picks: Picks) {
  const [first, second] = picks;
  const related = useAsk('tree.related', first !== undefined && second !== undefined ? { a: first, b: second } : null);
  const chainRefs =
    second !== undefined && related.state === 'answered' ? (related.value.steps ?? []).flatMap(({ from, to }) => [from, to]) : [];
  const picked = useMemo(() => keysOf(nodes, picks), [nodes, picks]);
  const chainKey = chainRefs.map(({ kind, id }) => `${kind} ${id}`).join('\n');
  // biome-ignore lint/correctness/useExhaustiveDependencies: `chainKey` stands for the list, which is a new one at every render.
  const chain = useMemo(() => keysOf(nodes, chainRefs), [nodes, chainKey]);
  const pickedOrder = useMemo(
    () => picks.map((one) => keysOf(nodes, [one])).flatMap((keys, index) => [...keys].map((key) => ({ key, index }))),
    [nodes, picks],
  );
  return { related, chainRefs, picked, chain, pickedOrder };
}
