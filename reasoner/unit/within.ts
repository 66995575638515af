import { type ChoiceSpace, choosableClasses, type Domains, hasChoice } from '../algebra/choices.ts';
import { dualize } from '../algebra/dualize.ts';
import type { Classes } from '../algebra/pairing.ts';

/** How mating classes meet: of a unit with all that was read of it, or (`beside`) with some of that set aside. */
export interface Within {
  readonly space: ChoiceSpace;
  /** By pairing, whether it counts; all do where it is left out. */
  readonly active?: Uint8Array;
}

const domainsWithin = ({ active }: Within, matings: readonly (Classes | null)[]): Domains => ({
  classes: matings,
  ...(active === undefined ? {} : { active }),
});

/** Whether the slots, each given the mating classes it may have (null: free), can be chosen for with no failing joint. */
export const choiceExists = (within: Within, matings: readonly (Classes | null)[]): boolean =>
  hasChoice(within.space, domainsWithin(within, matings));

/** For one slot, which of its mating classes some choice has. */
export const choosable = (within: Within, matings: readonly (Classes | null)[], slot: number): Classes =>
  choosableClasses(within.space, domainsWithin(within, matings))[slot] ?? new Int32Array(0);

/** Minimal sets of slots that cannot all hold a listed part of these mating classes (null: any that fits). The unlisted part, which fits everything, takes the place of the others. */
export const selfConflictsOf = (within: Within, matings: readonly (Classes | null)[]): number[][] =>
  choiceExists(within, matings)
    ? []
    : dualize(
        matings.length,
        (kept) =>
          choiceExists(
            within,
            matings.map((list, slot) => (kept[slot] === 1 ? list : null)),
          ),
        Number.POSITIVE_INFINITY,
        // A slot with nothing to choose from need not be looked for.
        matings.flatMap((list, slot) => (list?.length === 0 ? [[slot]] : [])),
      ).conflicts;
