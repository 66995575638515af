/** Lists of numbers, one after another: those of list i are `of[first[i]]` to `of[first[i + 1] − 1]`. */
export interface Lists {
  readonly first: Int32Array;
  readonly of: Int32Array;
}

/**
 * @param count how many lists
 * @param each says every member with its list, the same twice over: they are counted, then set in their places, of each list in the order they are said
 */
export const listsOf = (count: number, each: (say: (list: number, member: number) => void) => void): Lists => {
  const first = new Int32Array(count + 1);
  each((list) => {
    first[list + 1] = (first[list + 1] as number) + 1;
  });
  for (let list = 0; list < count; list += 1) first[list + 1] = (first[list + 1] as number) + (first[list] as number);
  const at = first.slice();
  const of = new Int32Array(first[count] as number);
  each((list, member) => {
    of[at[list] as number] = member;
    at[list] = (at[list] as number) + 1;
  });
  return { first, of };
};

/** The places of an array, listed by the number that stands there. */
export const listedBy = (numbers: Int32Array, count: number): Lists =>
  listsOf(count, (say) => {
    for (let place = 0; place < numbers.length; place += 1) say(numbers[place] as number, place);
  });
