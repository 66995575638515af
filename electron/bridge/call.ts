import { z } from 'zod';

/** An id of one kind, as it comes over the bridge. */
export const id = <T extends string>() =>
  z
    .string()
    .min(1)
    .max(200)
    .transform((text) => text as T);

export const nothing = z.strictObject({});

/** Holds a call's result type; results are built by our own code and are not parsed again on the way out. */
export const call = <Args extends z.ZodType>(args: Args) => ({ returns: <Result>() => ({ args, result: undefined as unknown as Result }) });
