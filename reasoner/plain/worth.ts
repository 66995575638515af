/** Of a slot of a verdict, what says whether its part is certain. */
interface SlotLeft<Slot, Part> {
  readonly slot: Slot;
  /** The one listed part that is left; null where there are none or several. */
  readonly only: Part | null;
  /** How many of those that are left are so only if machined. */
  readonly machined: number;
  readonly numberNotListed: unknown;
  readonly doubtful: boolean;
  readonly absent: boolean;
}

/** What the certain parts of a unit would sell for, and of which nothing can be said. */
export interface Worth<Slot, Part> {
  /** Slots settled to one listed part, each with its price. */
  readonly priced: readonly { readonly slot: Slot; readonly part: Part; readonly amount: number }[];
  /** Settled, and not on the list, or in other money. */
  readonly unpriced: readonly { readonly slot: Slot; readonly part: Part }[];
}

/**
 * Slots in which one listed part alone is left, which are not doubtful and hold it as it is made: a part that was worked on is not the one a price is asked for. An unlisted part is always
 * possible beside it (C1), so that this is said for the shop and for nobody else.
 * @param priceOf in the money that is asked about; null where there is none
 */
export const worthOf = <Slot, Part>(slots: readonly SlotLeft<Slot, Part>[], priceOf: (part: Part) => number | null): Worth<Slot, Part> => {
  const certain = slots.flatMap(({ slot, only, machined, numberNotListed, doubtful, absent }) => {
    if (only === null || machined > 0 || numberNotListed !== null || doubtful || absent) return [];
    return [{ slot, part: only, amount: priceOf(only) }];
  });
  return {
    priced: certain.flatMap(({ amount, ...one }) => (amount === null ? [] : [{ ...one, amount }])),
    unpriced: certain.flatMap(({ amount, ...one }) => (amount === null ? [one] : [])),
  };
};
