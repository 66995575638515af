/** Seeded choices for made-up atlases. The same seed gives the same atlas on every machine: only 32-bit integer arithmetic. */
export class Dice {
  #state: number;

  constructor(seed: number) {
    this.#state = (Math.imul(seed, 0x9e3779b1) ^ 0x5bd1e995) >>> 0 || 1;
    for (let i = 0; i < 8; i++) this.#next();
  }

  /** Marsaglia's xorshift of 32 bits with the shifts 13, 17, 5 (Journal of Statistical Software 8(14), 2003; from memory). */
  #next(): number {
    let x = this.#state;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.#state = x >>> 0;
    return this.#state;
  }

  /** A whole number from `least` to `most`, both included. */
  whole(least: number, most: number): number {
    return least + (this.#next() % (most - least + 1));
  }

  /** True `percent` times in a hundred. */
  often(percent: number): boolean {
    return this.#next() % 100 < percent;
  }

  one<T>(from: readonly T[]): T {
    const found = from[this.whole(0, from.length - 1)];
    if (found === undefined) throw new Error('nothing to choose from');
    return found;
  }

  /** `count` different elements, in the order they stand in. */
  some<T>(from: readonly T[], count: number): T[] {
    const left = from.map((_, i) => i);
    const taken: number[] = [];
    while (taken.length < count && left.length > 0) taken.push(...left.splice(this.whole(0, left.length - 1), 1));
    return taken.sort((a, b) => a - b).map((i) => from[i] as T);
  }
}
