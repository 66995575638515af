import type { Store } from '../../db/index.ts';
import { fitOf } from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** Looking things up in the atlas. The store answers from its graph; what fits what is judged by the reasoner. */
export const atlasCalls = (store: Store, kept: KeptAtlas): Calls<'atlas'> => ({
  'atlas.vocabulary': () => store.atlas.vocabulary(),
  'atlas.search': ({ text, limit }) => store.graph.search(text, limit),
  'atlas.maker': ({ id }) => store.graph.maker(id),
  'atlas.family': ({ id }) => store.graph.family(id),
  'atlas.model': ({ id }) => store.graph.model(id),
  'atlas.part': ({ id }) => store.graph.part(id),
  'atlas.descent': ({ family }) => store.graph.descent(family),
  'atlas.related': ({ a, b }) => store.graph.related(a, b),
  'atlas.fits': ({ part }) =>
    store.graph.fits(part, async () => {
      const atlas = await kept.now();
      return (joint, a, b) => fitOf(atlas, joint, a, b);
    }),
});
