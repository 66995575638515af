/**
 * One engine for every question that sums over the ways to fill the slots.
 *
 * A *problem* has variables with finitely many values and factors that weigh small groups of them in some commutative
 * semiring. Its value is ⊕ over all assignments of ⊗ over all factors. With booleans this asks whether a choice exists, with
 * numbers how many (or how likely), with antichains of labels which minimal sets make or break it.
 *
 * Method: search along a pseudo-tree of an elimination order, independent branches apart, each sub-answer remembered by the
 * values it depends on. Time and memory grow with the width of the graph, not with the number of assignments. Sources of the
 * method: Aji & McEliece, "The generalized distributive law", IEEE Trans. Inf. Theory 46 (2000); Dechter & Mateescu,
 * "AND/OR search spaces for graphical models", Artificial Intelligence 171 (2007).
 */
export interface Semiring<T> {
  readonly zero: T;
  readonly one: T;
  readonly plus: (a: T, b: T) => T;
  readonly times: (a: T, b: T) => T;
  /** Neutral for ⊕ and absorbing for ⊗: this branch adds nothing. */
  readonly isZero: (value: T) => boolean;
  /** Absorbing for ⊕, where the semiring has such a value: no further branch can change the sum. */
  readonly isFull: (value: T) => boolean;
}

export interface Factor<T> {
  /** The variables it weighs, each once. */
  readonly scope: readonly number[];
  /** The weight, given the values of all variables; reads only those of its scope. */
  readonly at: (values: readonly number[]) => T;
}

export interface Problem<T> {
  /** How many values each variable has. */
  readonly domains: readonly number[];
  readonly factors: readonly Factor<T>[];
}

interface Node<T> {
  readonly variable: number;
  readonly children: Node<T>[];
  readonly factors: Factor<T>[];
  /** Ancestors whose values the sub-answer depends on. */
  readonly context: readonly number[];
  /** Sub-answers by context, as one mixed-radix number: dense where that is small. */
  readonly remembered: { get(key: number): T | undefined; set(key: number, value: T): unknown } | null;
}

export const booleans: Semiring<boolean> = {
  zero: false,
  one: true,
  plus: (a, b) => a || b,
  times: (a, b) => a && b,
  isZero: (value) => !value,
  isFull: (value) => value,
};

export const numbers: Semiring<number> = {
  zero: 0,
  one: 1,
  plus: (a, b) => a + b,
  times: (a, b) => a * b,
  isZero: (value) => value === 0,
  isFull: () => false,
};

/** The value of the whole problem. */
export const evaluate = <T>(problem: Problem<T>, ring: Semiring<T>): T => {
  const values = new Array<number>(problem.domains.length).fill(-1);
  let answer = ring.one;
  for (const root of forest(problem, null)) {
    answer = ring.times(answer, sumAt(root, problem, ring, values));
    if (ring.isZero(answer)) break;
  }
  return answer;
};

/** The value of the problem for each value of one variable (its marginal). */
export const marginal = <T>(problem: Problem<T>, variable: number, ring: Semiring<T>): T[] => {
  const values = new Array<number>(problem.domains.length).fill(-1);
  const roots = forest(problem, variable);
  const own = roots.find((root) => root.variable === variable) as Node<T>;
  let others = ring.one;
  for (const root of roots) if (root !== own) others = ring.times(others, sumAt(root, problem, ring, values));
  return Array.from({ length: problem.domains[variable] as number }, (_, value) => {
    values[variable] = value;
    return ring.isZero(others) ? ring.zero : ring.times(others, weightBelow(own, problem, ring, values));
  });
};

const sumAt = <T>(node: Node<T>, problem: Problem<T>, ring: Semiring<T>, values: number[]): T => {
  let key = 0;
  if (node.remembered) {
    for (const variable of node.context) key = key * (problem.domains[variable] as number) + (values[variable] as number);
    const known = node.remembered.get(key);
    if (known !== undefined) return known;
  }
  let sum = ring.zero;
  const size = problem.domains[node.variable] as number;
  for (let value = 0; value < size; value += 1) {
    values[node.variable] = value;
    const weight = weightBelow(node, problem, ring, values);
    if (ring.isZero(weight)) continue;
    sum = ring.plus(sum, weight);
    if (ring.isFull(sum)) break;
  }
  values[node.variable] = -1;
  node.remembered?.set(key, sum);
  return sum;
};

const memory = <T>(keys: number): Node<T>['remembered'] => {
  if (keys > Number.MAX_SAFE_INTEGER) return null;
  if (keys > 1 << 20) return new Map<number, T>();
  const dense: (T | undefined)[] = new Array(keys).fill(undefined);
  return {
    get: (key) => dense[key],
    set: (key, value) => {
      dense[key] = value;
    },
  };
};

/** ⊗ of the factors decided at a node, whose value is set, and of everything below it. */
const weightBelow = <T>(node: Node<T>, problem: Problem<T>, ring: Semiring<T>, values: number[]): T => {
  let weight = ring.one;
  for (const factor of node.factors) {
    weight = ring.times(weight, factor.at(values));
    if (ring.isZero(weight)) return weight;
  }
  for (const child of node.children) {
    weight = ring.times(weight, sumAt(child, problem, ring, values));
    if (ring.isZero(weight)) return weight;
  }
  return weight;
};

/**
 * The pseudo-forest of a greedy elimination order (smallest resulting table first). `last`, where given, is eliminated last in
 * its component and so becomes a root.
 */
const forest = <T>(problem: Problem<T>, last: number | null): Node<T>[] => {
  const count = problem.domains.length;
  const neighbours = Array.from({ length: count }, () => new Set<number>());
  for (const { scope } of problem.factors) {
    for (const a of scope) for (const b of scope) if (a !== b) (neighbours[a] as Set<number>).add(b);
  }
  const remaining = new Set(Array.from({ length: count }, (_, i) => i));
  const order: number[] = [];
  const contexts = new Array<number[]>(count);
  while (remaining.size > 0) {
    let best = -1;
    let bestCost = Number.POSITIVE_INFINITY;
    for (const variable of remaining) {
      if (variable === last && remaining.size > 1) continue;
      let cost = problem.domains[variable] as number;
      for (const other of neighbours[variable] as Set<number>) cost *= Math.max(1, problem.domains[other] as number);
      if (cost < bestCost) {
        best = variable;
        bestCost = cost;
      }
    }
    const around = [...(neighbours[best] as Set<number>)];
    contexts[best] = around;
    for (const a of around) {
      (neighbours[a] as Set<number>).delete(best);
      for (const b of around) if (a !== b) (neighbours[a] as Set<number>).add(b);
    }
    remaining.delete(best);
    order.push(best);
  }
  const rank = new Array<number>(count).fill(0);
  order.forEach((variable, i) => {
    rank[variable] = i;
  });
  const nodes = order.map((variable): Node<T> => {
    const context = contexts[variable] as number[];
    const keys = context.reduce((product, other) => product * Math.max(1, problem.domains[other] as number), 1);
    return { variable, children: [], factors: [], context, remembered: memory<T>(keys) };
  });
  const roots: Node<T>[] = [];
  for (const node of nodes) {
    const parent = node.context.reduce(
      (nearest, other) => (nearest === -1 || (rank[other] as number) < (rank[nearest] as number) ? other : nearest),
      -1,
    );
    if (parent === -1) roots.push(node);
    else (nodes[rank[parent] as number] as Node<T>).children.push(node);
  }
  for (const factor of problem.factors) {
    if (factor.scope.length === 0) throw new Error('a factor must weigh at least one variable');
    const lowest = factor.scope.reduce((low, other) => ((rank[other] as number) < (rank[low] as number) ? other : low));
    (nodes[rank[lowest] as number] as Node<T>).factors.push(factor);
  }
  return roots;
};
