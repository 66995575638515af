/** What reading a code or designation gives: its value, or what was found and what was expected, in words. */
export type Outcome<Value> = { readonly ok: true; readonly value: Value } | { readonly ok: false; readonly sentence: string };

export const done = <Value>(value: Value): Outcome<Value> => ({ ok: true, value });
export const refused = (sentence: string): { readonly ok: false; readonly sentence: string } => ({ ok: false, sentence });
