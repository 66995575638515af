/** A slot whose part is replaced, with the minutes of work each of the parts given takes beside what stays. */
export interface Choosable {
  readonly slot: number;
  readonly parts: readonly { readonly part: number; readonly minutes: number }[];
}

/**
 * The minutes of work that replacing one part in each slot takes at the least, over every choice of parts that go together; 0 where none does, since then nothing can be said.
 * Branch and bound, slots in the order given.
 * @param between minutes of work between two of the parts, null where they do not go together
 */
export const leastWork = (
  slots: readonly Choosable[],
  between: (slot: number, part: number, other: number, otherPart: number) => number | null,
): number => {
  const choosable = slots
    .filter(({ parts }) => parts.length > 0)
    .map(({ slot, parts }) => ({ slot, parts: [...parts].sort((a, b) => a.minutes - b.minutes) }));
  // What the slots from here on take at the least.
  const rest = choosable.map((_, i) => choosable.slice(i).reduce((sum, { parts }) => sum + (parts[0]?.minutes ?? 0), 0));
  let best = Number.POSITIVE_INFINITY;
  const choose = (at: number, chosen: readonly { readonly slot: number; readonly part: number }[], spent: number): void => {
    const next = choosable[at];
    if (next === undefined) {
      best = Math.min(best, spent);
      return;
    }
    for (const { part, minutes } of next.parts) {
      if (spent + minutes + (rest[at + 1] ?? 0) >= best) return;
      let sum = spent + minutes;
      let together = true;
      for (const other of chosen) {
        const pair = between(other.slot, other.part, next.slot, part);
        if (pair === null) together = false;
        sum += pair ?? 0;
      }
      if (together && sum + (rest[at + 1] ?? 0) < best) choose(at + 1, [...chosen, { slot: next.slot, part }], sum);
    }
  };
  choose(0, [], 0);
  return Number.isFinite(best) ? best : 0;
};
