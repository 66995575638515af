/**
 * What the odds take for granted (Q1). They order suggestions and say what is likely; no status rests on them.
 * All are shares between 0 and 1. The figures to start from are the shop's own guesses, not measured: common practice, no source.
 */
export interface Assumptions {
  /** How often a unit on the counter was built as a model the atlas does not list, however large the atlas is. */
  readonly stranger: number;
  /** How often a slot of a unit on the counter no longer holds a part of the model it was built as. */
  readonly swapped: number;
  /** Of the parts swapped in, how many the atlas does not list. */
  readonly unlisted: number;
  /** Of the listed parts swapped in, how many do not fit beside the model's own: worked on, forced, or misdrawn in the atlas. */
  readonly misfit: number;
  /** How often a reading is written down wrong, whatever was there to be read. */
  readonly slip: number;
}

export const startingAssumptions: Assumptions = { stranger: 0.05, swapped: 0.08, unlisted: 0.2, misfit: 0.05, slip: 0.02 };

/** @throws RangeError naming the figure that is no share */
export const checkAssumptions = (assumptions: Assumptions): Assumptions => {
  for (const [name, share] of Object.entries(assumptions)) {
    if (!(share >= 0 && share <= 1)) throw new RangeError(`assumption “${name}”: found ${share}, expected a share from 0 to 1`);
  }
  return assumptions;
};
