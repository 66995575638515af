/** Order of label sets: fewer labels first, then the smaller first label that differs. */
export const bySizeThenLabels = (a: readonly number[], b: readonly number[]): number => {
  if (a.length !== b.length) return a.length - b.length;
  for (let i = 0; i < a.length; i += 1) {
    const difference = (a[i] as number) - (b[i] as number);
    if (difference !== 0) return difference;
  }
  return 0;
};

/** Sets found one after another. */
export interface Enumeration {
  /** Sorted label sets, smallest first. */
  readonly found: number[][];
  /** False when the enumeration was stopped by its limit. */
  readonly complete: boolean;
}

/** How many sets an enumeration gives before it says it stopped. */
export const defaultLimit = 1000;
