import { z } from 'zod';
import type { Listing } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { reasonedCall } from './call.ts';

export const listingCalls = {
  /** What the text of an offer claims, each with its place in it and what it could become on the sheet; never evidence (O1). */
  'listing.read': reasonedCall(z.strictObject({ text: z.string().max(limits.listingLetters) })).returns<Listing>(),
} as const;
