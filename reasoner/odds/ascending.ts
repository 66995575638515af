/** How many of an ascending list are no more than a value. */
export const upTo = (list: ArrayLike<number>, value: number): number => {
  let [low, high] = [0, list.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((list[middle] as number) <= value) low = middle + 1;
    else high = middle;
  }
  return low;
};

/** Whether an ascending list holds a number. */
export const has = (list: ArrayLike<number>, wanted: number): boolean => list[upTo(list, wanted) - 1] === wanted;
