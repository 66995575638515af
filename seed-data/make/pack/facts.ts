import type { FactDraft } from './draft.ts';

/** Short forms for facts, so that a part reads like a drawing's title block. */

export const count = (from: number, to = from): FactDraft => ({ kind: 'count', from, to });
export const choice = (...anyOf: string[]): FactDraft => ({ kind: 'choice', anyOf });
export const yes: FactDraft = { kind: 'presence', present: true };
export const no: FactDraft = { kind: 'presence', present: false };
export const present = (is: boolean): FactDraft => (is ? yes : no);
export const notKnown: FactDraft = { kind: 'not known' };

/** Letters every good example bears. */
export const mark = (...anyOf: string[]): FactDraft => ({ kind: 'mark', anyOf, blank: false });
/** Letters some good examples bear and others do not. */
export const markOrBlank = (...anyOf: string[]): FactDraft => ({ kind: 'mark', anyOf, blank: true });
/** Good examples bear no letters at all. */
export const blank: FactDraft = { kind: 'mark', anyOf: [], blank: true };

/** A size with its deviations; `between(62.4, -0.05, 0.05)` is 62.35 to 62.45. */
export const between = (nominal: number, lower: number, upper: number): FactDraft => ({
  kind: 'measure',
  nominal: rounded(nominal),
  lower: rounded(lower),
  upper: rounded(upper),
});

/** A size with equal deviations either way. */
export const about = (nominal: number, either: number): FactDraft => between(nominal, -either, either);

/** A size by its ISO 286 code, expanded when the pack is read. */
export const coded = (nominal: number, code: string): FactDraft => ({ kind: 'coded measure', nominal: rounded(nominal), code });

/** To the micrometre, so that sums of tenths are written as they are meant. */
export const rounded = (value: number): number => Math.round(value * 1000) / 1000;

/** To a tenth of a millimetre, as a pattern drawing gives a contour. */
export const tenth = (value: number): number => Math.round(value * 10) / 10;
