import { z } from 'zod';
import type { Version } from '../../db/answers.ts';

/** An id of one kind, as it comes over the bridge. */
export const id = <T extends string>() =>
  z
    .string()
    .min(1)
    .max(200)
    .transform((text) => text as T);

/**
 * What is saved was made against this version of it, as opening or saving it last gave it; null for what is new, and then nothing may be there (H5). It is never left out,
 * so that nobody forgets it.
 */
export const version = z
  .string()
  .regex(/^[0-9a-f]{64}$/, { error: 'a version: 64 hexadecimal digits' })
  .transform((text) => text as Version);
export const madeAgainst = version.nullable();

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
