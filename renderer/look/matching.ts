export interface Findable {
  readonly text: string;
  readonly detail?: string;
  /** Other words it is found by; they are not shown. */
  readonly also?: string;
  /** Of two that are found alike, the one with the lesser number is offered first; 0 where none is given. */
  readonly rank?: number;
}

/**
 * Entries whose words begin with every word typed, in any order: "tip turb" finds "turbine tip height". In this order: one that is just what was typed;
 * those found by their own words, before those found by other words or by what stands beside them; by rank; those that begin with what was typed; as given.
 */
export function matching<T extends Findable>(items: readonly T[], typed: string): readonly T[] {
  const wanted = wordsIn(typed);
  if (wanted.length === 0) return items;
  const found = items.filter((item) => {
    const words = wordsIn(`${item.text} ${item.detail ?? ''} ${item.also ?? ''}`);
    return wanted.every((want) => words.some((word) => word.startsWith(want)));
  });
  const whole = typed.trim().toLowerCase();
  const place = (item: T): readonly number[] => {
    const text = item.text.toLowerCase();
    const own = wordsIn(item.text);
    const byOwn = wanted.every((want) => own.some((word) => word.startsWith(want)));
    return [text === whole ? 0 : 1, byOwn ? 0 : 1, item.rank ?? 0, text.startsWith(whole) ? 0 : 1];
  };
  return found
    .map((item) => ({ item, place: place(item) }))
    .sort((a, b) => firstOf(a.place.map((one, i) => one - (b.place[i] as number))))
    .map(({ item }) => item);
}

/** The first that is not 0. */
const firstOf = (differences: readonly number[]): number => differences.find((one) => one !== 0) ?? 0;

const wordsIn = (text: string): readonly string[] => text.toLowerCase().match(/[\p{L}\p{N}.]+/gu) ?? [];
