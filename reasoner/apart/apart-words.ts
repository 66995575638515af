import { list } from '../plain/text.ts';
import type { Pair } from './cells.ts';
import type { Proof } from './proof.ts';

/**
 * Why the smallest set cannot be smaller, in sentences: made from the proof and from nothing else.
 * @param checks what each check is called, by the numbers the proof uses
 */
export const apartWords = (
  names: readonly string[],
  pairs: readonly Pair[],
  checks: readonly string[],
  size: number,
  separable: number,
  proof: Proof | null,
): readonly string[] => {
  if (separable === 0) return ['No feature the atlas knows separates any two of these.'];
  if (size === 1) return ['One check is enough, and without one nothing is told apart.'];
  if (proof === null) return [];
  const pair = (number: number): string => {
    const [a, b] = pairs[number] as Pair;
    return `${names[a]} from ${names[b]}`;
  };
  const why = (one: Proof, left: number): string[] => {
    const many = left === 1 ? 'one check' : `${left} checks`;
    switch (one.kind) {
      case 'apart':
        if (left === 0) return [`${pair(one.pairs[0] as number)} is then still not told, and no check is left.`];
        return [
          `No check tells two of these: ${list(one.pairs.map(pair))}. Each needs one of its own, which is ${one.pairs.length}, and there ${left === 1 ? 'is' : 'are'} only ${left} left.`,
        ];
      case 'cases':
        return [
          `Some check must tell ${pair(one.pair)}.`,
          ...one.cases.flatMap(({ tests, rest }) => [`If that is the ${named(tests, checks)}: ${why(rest, left - 1).join(' ')}`]),
          ...(left === 1 ? [] : [`So ${many} cannot be enough.`]),
        ];
    }
  };
  const head = size === 2 ? 'One check is not enough.' : `${size - 1} checks are not enough.`;
  return [head, ...why(proof, size - 1)];
};

/** Tests that stand in one case, the first few by name. */
const named = (tests: readonly number[], checks: readonly string[]): string => {
  const shown = tests.slice(0, 4).map((test) => checks[test] ?? '');
  return tests.length > 4 ? `${shown.join(', ')} or another of ${tests.length} checks that tell no more` : list(shown, 'or');
};
