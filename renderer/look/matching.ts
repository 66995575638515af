/**
 * Entries whose words begin with every word typed, in any order: "tip turb" finds "turbine tip height". Those that
 * begin with what was typed come first, and before them one that is just that; otherwise the given order is kept.
 */
export function matching<T extends { readonly text: string; readonly detail?: string; readonly also?: string }>(
  items: readonly T[],
  typed: string,
): readonly T[] {
  const wanted = wordsIn(typed);
  if (wanted.length === 0) return items;
  const found = items.filter((item) => {
    const words = wordsIn(`${item.text} ${item.detail ?? ''} ${item.also ?? ''}`);
    return wanted.every((want) => words.some((word) => word.startsWith(want)));
  });
  const rank = (item: T) => {
    const text = item.text.toLowerCase();
    const whole = typed.trim().toLowerCase();
    if (text === whole) return 0;
    if (text.startsWith(whole)) return 1;
    const own = wordsIn(item.text);
    return wanted.every((want) => own.some((word) => word.startsWith(want))) ? 2 : 3;
  };
  return found
    .map((item, order) => ({ item, order, rank: rank(item) }))
    .sort((a, b) => a.rank - b.rank || a.order - b.order)
    .map((entry) => entry.item);
}

const wordsIn = (text: string): readonly string[] => text.toLowerCase().match(/[\p{L}\p{N}.]+/gu) ?? [];
