import type { Proof } from '../../reasoner/index.ts';

/**
 * Whether a proof holds, read with nothing but the tests themselves: every test that separates a case's pair is among its cases, and what a case's strongest
 * test leaves open is refuted with one test fewer.
 */
export const proofHolds = (pairCount: number, covers: readonly (readonly number[])[], atMost: number, proof: Proof): boolean => {
  const separates = (test: number, pair: number) => (covers[test] ?? []).includes(pair);
  const tests = covers.map((_, test) => test);
  const holds = (open: readonly number[], left: number, one: Proof): boolean => {
    if (one.kind === 'apart') {
      return (
        one.pairs.length > left &&
        new Set(one.pairs).size === one.pairs.length &&
        one.pairs.every((pair) => open.includes(pair)) &&
        tests.every((test) => one.pairs.filter((pair) => separates(test, pair)).length <= 1)
      );
    }
    if (!open.includes(one.pair)) return false;
    const named = one.cases.flatMap((each) => each.tests);
    if (!tests.every((test) => !separates(test, one.pair) || named.includes(test))) return false;
    return left > 0
      ? one.cases.every(({ tests: either, rest }) =>
          // The refutation of what is left open by the strongest refutes what is left by each: it must hold for every one of them.
          either.every((test) =>
            holds(
              open.filter((pair) => !separates(test, pair)),
              left - 1,
              rest,
            ),
          ),
        )
      : false;
  };
  return holds(
    Array.from({ length: pairCount }, (_, pair) => pair),
    atMost,
    proof,
  );
};
