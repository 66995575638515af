import { numberSlipOf, slipOf } from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** Entries as they are typed. */
export const entryCalls = (kept: KeptAtlas): Calls<'entry'> => ({
  'entry.slip': async ({ sheet, feature: id, value, sure, lengths }) => {
    const atlas = await kept.now();
    const feature = atlas.features.get(id);
    if (feature === undefined) return refusal('not-found', 'feature', `The atlas has no feature “${id}”.`);
    const slip = slipOf(feature, value, sure, lengths);
    return well(slip.kind === 'plausible' ? numberSlipOf(atlas, sheet, { feature: id, value, sure }) : slip);
  },
});
