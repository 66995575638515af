import { classesOf } from './smallest-sets.ts';

/**
 * Why fewer tests do not do. Read from the root: some test must separate `pair`; whichever of `tests` that is, `rest` says why the rest still does not fit into the
 * tests left. At a leaf no test is left and the pair is not separated yet. Where several pairs share no test, each needs one of its own: `apart`.
 */
export type Proof =
  | { readonly kind: 'apart'; readonly pairs: readonly number[] }
  | {
      readonly kind: 'cases';
      readonly pair: number;
      readonly cases: readonly { readonly tests: readonly number[]; readonly rest: Proof }[];
    };

/**
 * The proof that no set of `atMost` tests separates every pair; null when some set does.
 * A test that separates no more of the pairs still open than another is no case of its own: it stands in that one's `tests`.
 */
export const proofThatNone = (pairCount: number, covers: readonly (readonly number[])[], atMost: number): Proof | null => {
  const classes = classesOf(covers).map(({ pairs, tests }) => ({ pairs: new Set(pairs), tests }));
  const all = Array.from({ length: pairCount }, (_, pair) => pair);
  const refute = (open: readonly number[], left: number): Proof | null => {
    if (open.length === 0) return null;
    const shared = (a: number, b: number) => classes.some(({ pairs }) => pairs.has(a) && pairs.has(b));
    const few = [...open].sort((a, b) => hits(a) - hits(b) || a - b);
    const separate: number[] = [];
    for (const pair of few) if (separate.every((other) => !shared(pair, other))) separate.push(pair);
    if (separate.length > left) return { kind: 'apart', pairs: separate.slice(0, left + 1) };
    const pair = few[0] as number;
    const cases: { tests: number[]; rest: Proof }[] = [];
    for (const { left: still, tests } of strongest(open, pair)) {
      const rest = refute(still, left - 1);
      if (rest === null) return null;
      cases.push({ tests, rest });
    }
    return { kind: 'cases', pair, cases };
  };
  const hits = (pair: number): number => classes.filter(({ pairs }) => pairs.has(pair)).length;
  /** The ways to separate `pair`, by what they leave open; those that leave more than another leaves are folded into it. */
  const strongest = (open: readonly number[], pair: number): { left: number[]; tests: number[] }[] => {
    const ways = classes
      .filter(({ pairs }) => pairs.has(pair))
      .map(({ pairs, tests }) => ({ left: open.filter((one) => !pairs.has(one)), tests }))
      .sort((a, b) => a.left.length - b.left.length);
    const kept: { left: number[]; tests: number[] }[] = [];
    for (const way of ways) {
      const stronger = kept.find(({ left }) => left.every((one) => way.left.includes(one)));
      if (stronger) stronger.tests.push(...way.tests);
      else kept.push({ left: way.left, tests: [...way.tests] });
    }
    return kept;
  };
  return refute(all, atMost);
};
