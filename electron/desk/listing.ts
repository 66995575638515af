import { readListing } from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import { well } from '../bridge/reply.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** The text of an offer, read with the atlas's words. */
export const listingCalls = (kept: KeptAtlas): Calls<'listing'> => ({
  'listing.read': async ({ text }) => well(readListing(await kept.now(), text)),
});
