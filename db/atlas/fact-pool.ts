import type { Fact } from '../../reasoner/index.ts';
import { type FactColumns, factOf } from './facts.ts';

/** A fact's columns as they are kept: `anyOf` as the text of JSON, truth as 0 or 1. */
export interface BareFact {
  readonly kind: Fact['kind'];
  readonly nominal: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly code: string | null;
  readonly anyOf: string | null;
  readonly blank: number | null;
  readonly present: number | null;
}

const kinds: readonly Fact['kind'][] = ['count', 'measure', 'choice', 'presence', 'mark', 'not known'];

/** Facts that say the same, as one object. Most of a large atlas is said more than once, and a million objects are what its memory goes to. */
export class FactPool {
  readonly #facts: Fact[] = [];
  /** Of each fact its three sizes, and what else it says as one number. */
  #sizes = new Float64Array(3 * 1024);
  #others = new Int32Array(1024);
  /** Open addressing: the place of a fact and one, 0 where none is. */
  #table = new Int32Array(4096);
  readonly #numbers = new Map<string, number>();
  readonly #double = new Float64Array(1);
  readonly #words = new Int32Array(this.#double.buffer);

  /** The one fact that says this. */
  of({ kind, nominal, lower, upper, code, anyOf, blank, present }: BareFact): Fact {
    const [x, y, z] = [nominal ?? Number.NaN, lower ?? Number.NaN, upper ?? Number.NaN];
    const text = kind === 'measure' ? code : anyOf;
    const other = 9 * (kinds.length * this.#numberOf(text) + kinds.indexOf(kind)) + 3 * (blank ?? 2) + (present ?? 2);
    const mask = this.#table.length - 1;
    let at = this.#hash(x, y, z, other) & mask;
    for (let found = this.#table[at] as number; found !== 0; found = this.#table[at] as number) {
      if (this.#says(found - 1, x, y, z, other)) return this.#facts[found - 1] as Fact;
      at = (at + 1) & mask;
    }
    const fact = factOf({
      kind,
      nominal,
      lower,
      upper,
      code,
      anyOf: anyOf === null ? null : JSON.parse(anyOf),
      blank: blank === null ? null : blank === 1,
      present: present === null ? null : present === 1,
    } satisfies FactColumns);
    this.#add(fact, x, y, z, other);
    this.#table[at] = this.#facts.length;
    if (2 * this.#facts.length > this.#table.length) this.#widen();
    return fact;
  }

  #numberOf(text: string | null): number {
    if (text === null) return 0;
    const known = this.#numbers.get(text);
    if (known !== undefined) return known;
    this.#numbers.set(text, this.#numbers.size + 1);
    return this.#numbers.size;
  }

  #says(fact: number, x: number, y: number, z: number, other: number): boolean {
    const from = 3 * fact;
    const sizes = this.#sizes;
    return this.#others[fact] === other && Object.is(sizes[from], x) && Object.is(sizes[from + 1], y) && Object.is(sizes[from + 2], z);
  }

  #add(fact: Fact, x: number, y: number, z: number, other: number): void {
    const at = this.#facts.push(fact) - 1;
    if (at >= this.#others.length) {
      const [sizes, others] = [this.#sizes, this.#others];
      this.#sizes = new Float64Array(2 * sizes.length);
      this.#sizes.set(sizes);
      this.#others = new Int32Array(2 * others.length);
      this.#others.set(others);
    }
    this.#sizes.set([x, y, z], 3 * at);
    this.#others[at] = other;
  }

  #widen(): void {
    this.#table = new Int32Array(4 * this.#table.length);
    const mask = this.#table.length - 1;
    for (let fact = 0; fact < this.#facts.length; fact += 1) {
      const [x, y, z] = [this.#sizes[3 * fact], this.#sizes[3 * fact + 1], this.#sizes[3 * fact + 2]] as [number, number, number];
      let at = this.#hash(x, y, z, this.#others[fact] as number) & mask;
      while (this.#table[at] !== 0) at = (at + 1) & mask;
      this.#table[at] = fact + 1;
    }
  }

  #hash(x: number, y: number, z: number, other: number): number {
    let hash = Math.imul(other + 1, 0x9e3779b1);
    hash = this.#mixed(hash, x);
    hash = this.#mixed(hash, y);
    hash = this.#mixed(hash, z);
    return hash ^ (hash >>> 15);
  }

  #mixed(hash: number, value: number): number {
    this.#double[0] = value;
    const [low, high] = [this.#words[0] as number, this.#words[1] as number];
    const mixed = Math.imul(hash ^ low, 0x85ebca6b);
    return Math.imul(mixed ^ (mixed >>> 13) ^ high, 0xc2b2ae35);
  }
}
