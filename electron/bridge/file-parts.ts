import { z } from 'zod';

/** A file on its way over the bridge goes by a token that says nothing of it. */
export const fileToken = z.uuid();

/** Base64 of 8 MiB and a little: a file crosses in parts, because one call may carry no more. */
export const filePart = z
  .string()
  .max(11_500_000)
  .regex(/^[A-Za-z0-9+/]*={0,2}$/);
