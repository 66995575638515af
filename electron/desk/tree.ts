import type { Store } from '../../db/index.ts';
import type { Calls } from './desk.ts';

/** The family tree as the window draws it, and how any two of its nodes are related. */
export const treeCalls = (store: Store): Calls<'tree'> => ({
  'tree.atlas': () => store.tree(),
  'tree.parts': ({ models }) => store.treeParts(models),
  'tree.related': ({ a, b }) => store.relatedNodes(a, b),
});
