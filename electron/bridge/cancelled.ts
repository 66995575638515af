import { refusal } from './reply.ts';

/** Thrown from a pulse: nobody waits for the answer any more. */
export class Cancelled extends Error {}

/** The answer to what nobody waits for any more. A window leaves it alone. */
export const cancelled = refusal(
  'cancelled',
  null,
  'This was not answered to its end: a newer question took its place, or whoever asked went on to something else.',
);
