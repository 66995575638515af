import type { Network } from '../../oracle/algebra/network.ts';

/** Every assignment tried in turn: slow, obvious, and nothing of the engine's in it. */
export interface ByHand {
  readonly solutions: number;
  readonly conflicts: readonly (readonly number[])[];
  readonly relaxations: readonly (readonly number[])[];
}

export const byHand = (network: Network): ByHand => {
  const labels = [...new Set(network.constraints.flatMap(({ label }) => (label === null ? [] : [label])))].sort((a, b) => a - b);
  let solutions = 0;
  const broken = new Set<number>();
  for (const values of assignments(network.domains)) {
    let bits = 0;
    let impossible = false;
    for (const { scope, allows, label } of network.constraints) {
      if (allows(scope.map((variable) => values[variable] as number))) continue;
      if (label === null) impossible = true;
      else bits |= 1 << labels.indexOf(label);
    }
    if (impossible) continue;
    if (bits === 0) solutions++;
    broken.add(bits);
  }
  const every = Array.from({ length: 1 << labels.length }, (_, bits) => bits);
  const minimal = (sets: readonly number[]) => sets.filter((set) => !sets.some((other) => other !== set && (other & set) === other));
  const named = (sets: readonly number[]) => minimal(sets).map((bits) => labels.filter((_, i) => bits & (1 << i)));
  return {
    solutions,
    // A set is a conflict when every possible assignment breaks one of its members.
    conflicts: named(every.filter((set) => [...broken].every((breaks) => (set & breaks) !== 0))),
    relaxations: named([...broken]),
  };
};

/** All ways to choose one value of each variable. */
export function* assignments(domains: readonly number[]): Generator<readonly number[]> {
  if (domains.some((size) => size === 0)) return;
  const values = domains.map(() => 0);
  for (;;) {
    yield values;
    let at = domains.length - 1;
    while (at >= 0) {
      const next = (values[at] as number) + 1;
      if (next < (domains[at] as number)) {
        values[at] = next;
        break;
      }
      values[at] = 0;
      at--;
    }
    if (at < 0) return;
  }
}
