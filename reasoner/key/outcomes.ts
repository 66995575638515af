import type { Look } from '../apart/look.ts';

/** What an answer to a check reads: one or more values, or sizes from one cut to the next (null: without end). */
export type Answer =
  | { readonly kind: 'one of'; readonly values: readonly string[] }
  | { readonly kind: 'range'; readonly from: number | null; readonly to: number | null; readonly low: number; readonly high: number };

/** One way a check can come out: who is still possible then, and with what share of it each part of that kind comes out so. */
export interface Outcome {
  readonly answer: Answer;
  readonly kinds: readonly number[];
  readonly shares: readonly number[];
}

/**
 * The ways a check can come out among these kinds; none where it tells nothing. Of values: one way for each, taken together where they leave the same kinds. Of sizes and counts: the greatest groups whose
 * ranges share a reading; between one group and the next lies a cut that no part of only one of them passes. So two kinds whose looks exclude each other
 * are in no way together, whatever stands between them. A kind with several ways takes each with the same share; one whose look is not known takes all.
 */
export const outcomesOf = (kinds: readonly number[], looks: readonly (Look | null)[], step: number): readonly Outcome[] => {
  const known: number[] = [];
  const silent: number[] = [];
  for (const kind of kinds) (looks[kind] == null ? silent : known).push(kind);
  // Most checks tell nothing here: parts that look alike share one look, and then there is one way.
  if (
    known.every((kind) => looks[kind] === looks[known[0] as number]) &&
    (known.length === 0 || looks[known[0] as number]?.kind === 'range')
  )
    return [];
  const ranges = known.flatMap((kind) => {
    const look = looks[kind];
    return look?.kind === 'range' ? [{ kind, low: look.low, high: look.high }] : [];
  });
  const groups = ranges.length > 0 ? groupsOfRanges(ranges, step) : groupsOfValues(known, looks);
  if (groups.length < 2) return [];
  const ways = new Map<number, number>();
  for (const { kinds: members } of groups) for (const kind of members) ways.set(kind, (ways.get(kind) ?? 0) + 1);
  return groups.map(({ answer, kinds: members, weight }) => ({
    answer,
    kinds: [...members, ...silent],
    shares: [...members.map((kind) => weight(kind, ways.get(kind) ?? 1)), ...silent.map(() => 1 / groups.length)],
  }));
};

interface Group {
  readonly answer: Answer;
  readonly kinds: readonly number[];
  /** Share of a member's readings that fall into the group, given in how many groups it is. */
  readonly weight: (kind: number, ways: number) => number;
}

const groupsOfValues = (kinds: readonly number[], looks: readonly (Look | null)[]): readonly Group[] => {
  const valuesOf = (kind: number): readonly string[] => {
    const look = looks[kind];
    return look?.kind === 'one of' ? look.values : [];
  };
  const byValue = new Map<string, number[]>();
  for (const kind of kinds) for (const value of valuesOf(kind)) byValue.set(value, [...(byValue.get(value) ?? []), kind]);
  const byMembers = new Map<string, { values: string[]; kinds: number[] }>();
  for (const [value, members] of byValue) {
    const group = byMembers.get(members.join()) ?? { values: [], kinds: members };
    group.values.push(value);
    byMembers.set(members.join(), group);
  }
  return [...byMembers.values()].map(({ values, kinds: members }) => ({
    answer: { kind: 'one of', values },
    kinds: members,
    weight: (kind) => valuesOf(kind).filter((value) => values.includes(value)).length / Math.max(1, valuesOf(kind).length),
  }));
};

/** The maximal groups of ranges that share a point, from small to large, with cuts between them. */
const groupsOfRanges = (
  ranges: readonly { readonly kind: number; readonly low: number; readonly high: number }[],
  step: number,
): readonly Group[] => {
  const starts = [...ranges].sort((a, b) => a.low - b.low);
  const groups: { members: number[]; ends: number; next: number | null }[] = [];
  let open: { kind: number; low: number; high: number }[] = [];
  let grown = false;
  for (const range of starts) {
    const stay = open.filter(({ high }) => high >= range.low);
    if (grown && stay.length < open.length) {
      const gone = open.filter(({ high }) => high < range.low);
      groups.push({ members: open.map(({ kind }) => kind), ends: Math.max(...gone.map(({ high }) => high)), next: range.low });
    }
    open = [...stay, range];
    grown = true;
  }
  groups.push({ members: open.map(({ kind }) => kind), ends: Number.POSITIVE_INFINITY, next: null });
  const cuts = groups.map(({ ends, next }) => (next === null ? null : cutBetween(ends, next, step)));
  return groups.map(({ members }, i) => {
    const own = ranges.filter(({ kind }) => members.includes(kind));
    const from = i === 0 ? null : (cuts[i - 1] ?? null);
    const to = cuts[i] ?? null;
    return {
      answer: {
        kind: 'range',
        from,
        to,
        low: Math.max(from ?? Number.NEGATIVE_INFINITY, Math.min(...own.map(({ low }) => low))),
        high: Math.min(to ?? Number.POSITIVE_INFINITY, Math.max(...own.map(({ high }) => high))),
      },
      kinds: members,
      weight: (_, ways) => 1 / ways,
    };
  });
};

/** A figure between two sizes with no more places than it needs: half way, at the instrument's step where one of its steps lies between. */
const cutBetween = (below: number, above: number, step: number): number => {
  const middle = (below + above) / 2;
  const atStep = step > 0 ? Math.round(middle / step) * step : middle;
  const exact = Number(atStep.toFixed(6));
  if (step > 0 && exact > below && exact < above) return exact;
  for (let places = 0; places <= 6; places += 1) {
    const rounded = Number(middle.toFixed(places));
    if (rounded > below && rounded < above) return rounded;
  }
  return middle;
};
