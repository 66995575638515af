import { z } from 'zod';

/** An id of one kind, as it comes over the bridge. */
export const id = <T extends string>() =>
  z
    .string()
    .min(1)
    .max(200)
    .transform((text) => text as T);

export const nothing = z.strictObject({});

/**
 * Where a call is answered, so that nothing short waits behind anything long.
 * - `store`: in moments, from the store; and all that writes
 * - `atlas`: in moments, by the reasoner over the compiled atlas
 * - `long`: by the reasoner, and it may take seconds; it can be cancelled, and may report progress
 * - `runs`: about what is under way by its token, a little at a time
 */
export type Room = 'store' | 'atlas' | 'long' | 'runs';

/** Holds a call's result type; results are built by our own code and are not parsed again on the way out. */
const callIn =
  (room: Room) =>
  <Args extends z.ZodType>(args: Args) => ({ returns: <Result>() => ({ args, room, result: undefined as unknown as Result }) });

export const call = callIn('store');
export const reasonedCall = callIn('atlas');
export const longCall = callIn('long');
export const runCall = callIn('runs');
