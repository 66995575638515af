import type { Conflict } from '../../reasoner/index.ts';
import { nodesOf } from './conflictGraph.ts';

/** What is picked, in the list or in the graph: a conflict, or one node. */
export type Picked = { readonly kind: 'conflict'; readonly index: number } | { readonly kind: 'node'; readonly id: string };

/** The nodes that are lit: those of the conflict, or those of every conflict the node is in. */
export function litNodes(picked: Picked, conflicts: readonly Conflict[]): ReadonlySet<string> {
  if (picked.kind === 'conflict') {
    const conflict = conflicts[picked.index];
    return conflict === undefined ? new Set() : nodesOf(conflict);
  }
  return new Set([picked.id, ...conflicts.filter((one) => nodesOf(one).has(picked.id)).flatMap((one) => [...nodesOf(one)])]);
}

/** The conflicts that are lit: the picked one, or every one the picked node is in. */
export const litConflicts = (picked: Picked, conflicts: readonly Conflict[]): ReadonlySet<number> =>
  new Set(
    conflicts.flatMap((one, index) => ((picked.kind === 'conflict' ? picked.index === index : nodesOf(one).has(picked.id)) ? [index] : [])),
  );
