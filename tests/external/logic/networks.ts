import type { Network } from '../../oracle/algebra/network.ts';

type Constraint = Network['constraints'][number];

/** Builds a constraint network with named variables, so that a published example can be read as it was printed. */
export class NetworkBuilder {
  readonly #names: string[] = [];
  readonly #domains: number[] = [];
  readonly #constraints: Constraint[] = [];

  /** A variable with the values 0..size-1. */
  variable(name: string, size: number): this {
    if (this.#names.includes(name)) throw new Error(`variable ${name} is declared twice`);
    this.#names.push(name);
    this.#domains.push(size);
    return this;
  }

  variables(names: readonly string[], size: number): this {
    for (const name of names) this.variable(name, size);
    return this;
  }

  /** A constraint that always holds. */
  hard(scope: readonly string[], allows: (...values: number[]) => boolean): this {
    return this.#add(null, scope, allows);
  }

  /** A constraint that may be given up, under a label. */
  labelled(label: number, scope: readonly string[], allows: (...values: number[]) => boolean): this {
    return this.#add(label, scope, allows);
  }

  index(name: string): number {
    const at = this.#names.indexOf(name);
    if (at < 0) throw new Error(`no variable ${name}`);
    return at;
  }

  build(): Network {
    return { domains: [...this.#domains], constraints: [...this.#constraints] };
  }

  #add(label: number | null, scope: readonly string[], allows: (...values: number[]) => boolean): this {
    this.#constraints.push({ scope: scope.map((name) => this.index(name)), allows: (values) => allows(...values), label });
    return this;
  }
}

/** The same network with one variable held to one value. */
export const holding = (network: Network, variable: number, value: number): Network => ({
  domains: network.domains,
  constraints: [...network.constraints, { scope: [variable], allows: ([found]) => found === value, label: null }],
});

/** Sets in a fixed order, so that two enumerations can be compared. */
export const inOrder = (sets: readonly (readonly number[])[]): number[][] =>
  sets
    .map((set) => [...set].sort((a, b) => a - b))
    .sort((a, b) => a.length - b.length || a.map((x, i) => x - (b[i] ?? 0)).find((difference) => difference !== 0) || 0);

/** Neighbours never share a value: the proper colourings of a graph. */
export const colouring = (edges: readonly (readonly [string, string])[], colours: number): Network => {
  const builder = new NetworkBuilder().variables([...new Set(edges.flat())], colours);
  for (const [a, b] of edges) builder.hard([a, b], (x, y) => x !== y);
  return builder.build();
};
