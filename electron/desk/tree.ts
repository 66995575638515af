import type { Store } from '../../db/index.ts';
import type { Calls } from '../bridge/desk.ts';

/** The family tree as the window draws it, and how any two of its nodes are related. */
export const treeCalls = (store: Store): Calls<'tree'> => ({
  'tree.atlas': () => store.graph.tree(),
  'tree.parts': ({ models }) => store.graph.treeParts(models),
  'tree.related': ({ a, b }) => store.graph.relatedNodes(a, b),
});
