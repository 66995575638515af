import type { GrammarDemand } from '../../../reasoner/index.ts';
import type { Plain } from '../pack/draft.ts';

/** Where token `when` reads one of `is`, token `other` must (or must not) be there. */
export const demand = (when: string, is: readonly string[], other: string, present: boolean, because: string): Plain<GrammarDemand> => ({
  when: { token: when, is },
  // biome-ignore lint/suspicious/noThenProperty: the pack format's own word; nobody awaits a demand
  then: { token: other, present },
  because,
});
