/** How far apart places are where nothing was there before: room to put ten things between two, one after the other; less where there are very many. */
const gapOf = (many: number): number => Math.max(1, Math.min(1024, Math.floor(2 ** 30 / (many + 1))));

/**
 * Places for things in this order, in whole numbers that rise: where possible the places they had, so that only what was moved or put in
 * gets another. The fewest are moved; where there is no room between two, those around them make some.
 * @param had the place a thing had, or undefined
 */
export const placesFor = (ids: readonly string[], had: (id: string) => number | undefined): ReadonlyMap<string, number> => {
  const places = ids.map(had);
  const stays = risingMost(places);
  const gap = gapOf(ids.length);
  const found: number[] = ids.map((_, index) => (stays.has(index) ? (places[index] as number) : Number.NaN));
  for (let start = 0; start < found.length; ) {
    if (!Number.isNaN(found[start])) {
      start += 1;
      continue;
    }
    let end = start;
    while (end < found.length && Number.isNaN(found[end])) end += 1;
    fill(found, start, end, gap);
    start = end;
  }
  return new Map(ids.map((id, index) => [id, found[index] as number]));
};

/** Gives places to those from `start` to before `end`, taking in neighbours on both sides until there is room. */
const fill = (found: number[], start: number, end: number, gap: number): void => {
  for (let [from, to] = [start, end]; ; ) {
    const many = to - from;
    const below = from === 0 ? null : (found[from - 1] as number);
    const above = to === found.length ? null : (found[to] as number);
    // At either end there is all the room one wants.
    const step = above === null ? gap : Math.floor((above - (below ?? above - gap * (many + 1))) / (many + 1));
    if (step >= 1) {
      const first = above === null ? (below ?? 0) : (below ?? above - gap * (many + 1));
      for (let index = from; index < to; index += 1) found[index] = first + step * (index - from + 1);
      return;
    }
    from = Math.max(0, from - many);
    to = Math.min(found.length, to + many);
    // What lies ahead may have no place yet either.
    while (to < found.length && Number.isNaN(found[to])) to += 1;
  }
};

/** Which of them, by index, make the longest row that rises; undefined ones never do. Patience sorting: n·log n. */
const risingMost = (places: readonly (number | undefined)[]): ReadonlySet<number> => {
  const before: number[] = new Array(places.length).fill(-1);
  /** Of each length the index the best row of it ends at. */
  const ends: number[] = [];
  places.forEach((place, index) => {
    if (place === undefined) return;
    let [low, high] = [0, ends.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((places[ends[middle] as number] as number) < place) low = middle + 1;
      else high = middle;
    }
    before[index] = low === 0 ? -1 : (ends[low - 1] as number);
    ends[low] = index;
  });
  const rising = new Set<number>();
  for (let index = ends.at(-1) ?? -1; index !== -1; index = before[index] as number) rising.add(index);
  return rising;
};
