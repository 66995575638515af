import type { Semiring } from './evaluate.ts';
import type { Family } from './label-sets.ts';

/** What each combination of values of a few variables is worth, row-major in the order of the scope. */
export interface Table {
  readonly scope: readonly number[];
  readonly worth: Int32Array;
}

/**
 * The value of a problem given as tables of families: the same sum as `evaluate`, for problems of the size of a unit, asked for
 * every name of the atlas. Variables are eliminated one by one, the one with the smallest resulting table first (Dechter, "Bucket elimination",
 * Artificial Intelligence 113 (1999)); families are small numbers, so the tables are flat arrays of them.
 */
export const eliminate = (domains: readonly number[], tables: readonly Table[], ring: Semiring<Family>): Family => {
  let open = [...tables];
  let result = ring.one;
  const left = new Set(domains.keys());
  while (left.size > 0) {
    const variable = cheapest(domains, open, left);
    left.delete(variable);
    const bucket = open.filter(({ scope }) => scope.includes(variable));
    open = open.filter(({ scope }) => !scope.includes(variable));
    const summed = sumOut(domains, bucket, variable, ring);
    if (summed.scope.length > 0) open.push(summed);
    else result = ring.times(result, summed.worth[0] as Family);
    if (ring.isZero(result)) return result;
  }
  return result;
};

const cheapest = (domains: readonly number[], tables: readonly Table[], left: ReadonlySet<number>): number => {
  let best = -1;
  let bestCost = Number.POSITIVE_INFINITY;
  for (const variable of left) {
    const around = new Set([variable]);
    for (const { scope } of tables) if (scope.includes(variable)) for (const each of scope) around.add(each);
    let cost = 1;
    for (const each of around) cost *= domains[each] as number;
    if (cost < bestCost) {
      best = variable;
      bestCost = cost;
    }
  }
  return best;
};

/** ⊗ of the tables, summed by ⊕ over one variable. */
const sumOut = (domains: readonly number[], bucket: readonly Table[], variable: number, ring: Semiring<Family>): Table => {
  const scope = [...new Set(bucket.flatMap((table) => table.scope))].filter((each) => each !== variable).sort((a, b) => a - b);
  const sizes = scope.map((each) => domains[each] as number);
  const total = sizes.reduce((product, size) => product * size, 1);
  const strides = bucket.map((table) => stridesOf(table, domains));
  const own = strides.map((stride) => stride.get(variable) as number);
  const steps = scope.map((each) => strides.map((stride) => stride.get(each) ?? 0));
  const count = bucket.length;
  const at = new Array<number>(count).fill(0);
  const digits = new Array<number>(scope.length).fill(0);
  const size = domains[variable] as number;
  const worth = new Int32Array(total);
  let weights: Family[] = [];
  for (let context = 0; context < total; context += 1) {
    // Each worth once, and always in the same order, so that equal sums are met again and remembered.
    weights.length = 0;
    let full = false;
    for (let value = 0; value < size && !full; value += 1) {
      let weight = ring.one;
      for (let t = 0; t < count; t += 1) {
        weight = ring.times(weight, (bucket[t] as Table).worth[(at[t] as number) + value * (own[t] as number)] as Family);
      }
      full = ring.isFull(weight);
      if (full) weights = [weight];
      else if (!ring.isZero(weight) && !weights.includes(weight)) weights.push(weight);
    }
    worth[context] = weights.sort((a, b) => a - b).reduce(ring.plus, ring.zero);
    // Step to the next context: the last variable of the scope runs fastest.
    for (let d = scope.length - 1; d >= 0; d -= 1) {
      const step = steps[d] as readonly number[];
      digits[d] = (digits[d] as number) + 1;
      const wraps = digits[d] === sizes[d];
      for (let t = 0; t < count; t += 1) at[t] = (at[t] as number) + (step[t] as number) * (wraps ? 1 - (sizes[d] as number) : 1);
      if (!wraps) break;
      digits[d] = 0;
    }
  }
  return { scope, worth };
};

const stridesOf = ({ scope }: Table, domains: readonly number[]): Map<number, number> => {
  const strides = new Map<number, number>();
  let stride = 1;
  for (let i = scope.length - 1; i >= 0; i -= 1) {
    strides.set(scope[i] as number, stride);
    stride *= domains[scope[i] as number] as number;
  }
  return strides;
};
