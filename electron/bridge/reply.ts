import type { Trouble } from './contract.ts';
import type { TroubleCode } from './trouble-codes.ts';

/** The two replies. Expected failures are values; what is thrown past the desk is a bug. */
export const well = <Value>(value: Value): { readonly ok: true; readonly value: Value } => ({ ok: true, value });

/** An expected failure as a reply. */
export const refusal = (code: TroubleCode, place: string | null, sentence: string): { readonly ok: false; readonly trouble: Trouble } => ({
  ok: false,
  trouble: { code, place, sentence },
});
