/** Things in groups. */
export interface Groups {
  readonly of: Int32Array;
  readonly count: number;
  /** One thing of each group. */
  readonly example: Int32Array;
}

/** The coarsest grouping finer than all the given ones. */
export const refine = (
  length: number,
  tables: readonly { readonly distinct: { readonly length: number }; readonly of: Int32Array }[],
): Groups => {
  let of = new Int32Array(length);
  let count = length === 0 ? 0 : 1;
  for (const table of tables) {
    const numbers = new Map<number, number>();
    const next = new Int32Array(length);
    for (let i = 0; i < length; i += 1) {
      const key = (of[i] as number) * table.distinct.length + (table.of[i] as number);
      let number = numbers.get(key);
      if (number === undefined) {
        number = numbers.size;
        numbers.set(key, number);
      }
      next[i] = number;
    }
    of = next;
    count = numbers.size;
  }
  const example = new Int32Array(count).fill(-1);
  for (let i = 0; i < length; i += 1) {
    const group = of[i] as number;
    if (example[group] === -1) example[group] = i;
  }
  return { of, count, example };
};
