import type { WorkedMeeting } from '../compile/as-found.ts';
import { smallestMeeting } from './readings.ts';

/** By place in a table, then by way of finding a part: which readings exclude it. */
export type Excluders = readonly (readonly (readonly number[])[])[];

/** Of a pair of parts that meet however they are read: no reading keeps them apart. */
export const untold = 0;
/** Of a pair that meets in no way at all. */
const never = 1;

/** A table with no more pairs than this is asked of each pair once. */
const fewPairs = 2 ** 16;

/**
 * What is told of pairs of parts by the readings at both ends of one comparison. Few things are: each has a number, and `untold` is one of them. A pair is asked by the
 * places of its two parts in their tables, millions of times for one unit.
 */
export class Tellings {
  readonly #meeting: WorkedMeeting;
  readonly #a: Ways;
  readonly #b: Ways;
  /** What was told of each pair, plus one; null where there are too many to keep. */
  readonly #known: Uint16Array | null;
  /** By what is told, then by what excludes one way more in which the two meet: what is told with that. */
  readonly #next: (number | undefined)[] = [];
  /** By what is told: which pairs of excluders the ways have in which the two meet. */
  readonly #members: (readonly number[])[] = [[], []];
  readonly #numbers = new Map<string, number>();
  readonly #sets: (readonly (readonly number[])[] | undefined)[] = [];

  constructor(meeting: WorkedMeeting, a: Excluders, b: Excluders) {
    this.#meeting = meeting;
    this.#a = waysOf(a);
    this.#b = waysOf(b);
    this.#known = a.length * b.length <= fewPairs ? new Uint16Array(a.length * b.length) : null;
  }

  /** The number of what is told of a pair. */
  of(a: number, b: number): number {
    if (this.#known === null) return this.#ask(a, b);
    const place = a * (this.#b.first.length - 1) + b;
    if (this.#known[place] === 0) this.#known[place] = this.#ask(a, b) + 1;
    return (this.#known[place] as number) - 1;
  }

  /** The smallest sets of readings that, kept together, leave a pair no way to meet; none where it meets with all, or not without them. */
  sets(told: number): readonly (readonly number[])[] {
    const known = this.#sets[told];
    if (known !== undefined) return known;
    const members = this.#members[told] as readonly number[];
    const { excluders } = this.#b;
    const against = members.map((each) => [
      ...(this.#a.excluders[Math.floor(each / excluders.length)] as readonly number[]),
      ...(excluders[each % excluders.length] as readonly number[]),
    ]);
    const sets = against.length === 0 ? [] : smallestMeeting(against);
    this.#sets[told] = sets;
    return sets;
  }

  #ask(a: number, b: number): number {
    const [from, to] = [this.#b.first[b] as number, this.#b.first[b + 1] as number];
    const [fromA, toA] = [this.#a.first[a] as number, this.#a.first[a + 1] as number];
    let told = never;
    for (let wayA = fromA; wayA < toA; wayA += 1) {
      for (let wayB = from; wayB < to; wayB += 1) {
        if (this.#meeting.failsAs(a, wayA - fromA, b, wayB - from)) continue;
        const both = (this.#a.by[wayA] as number) * this.#b.excluders.length + (this.#b.by[wayB] as number);
        if (both === 0) return untold;
        told = this.#with(told, both);
      }
    }
    return told;
  }

  #with(told: number, both: number): number {
    const place = told * this.#a.excluders.length * this.#b.excluders.length + both;
    const known = this.#next[place];
    if (known !== undefined) return known;
    const members = [...new Set([...(this.#members[told] as readonly number[]), both])].sort((p, q) => p - q);
    const number = this.#numbers.get(members.join()) ?? this.#members.push(members) - 1;
    this.#numbers.set(members.join(), number);
    this.#next[place] = number;
    return number;
  }
}

/** The ways of finding each part, one part after another, with the number of what excludes each; what nothing excludes has number 0. */
interface Ways {
  readonly first: Int32Array;
  readonly by: Int32Array;
  readonly excluders: readonly (readonly number[])[];
}

const waysOf = (all: Excluders): Ways => {
  const first = new Int32Array(all.length + 1);
  const numbers = new Map([['', 0]]);
  const excluders: (readonly number[])[] = [[]];
  const by: number[] = [];
  all.forEach((ways, place) => {
    for (const labels of ways) {
      const key = labels.join();
      const number = numbers.get(key) ?? excluders.push(labels) - 1;
      numbers.set(key, number);
      by.push(number);
    }
    first[place + 1] = by.length;
  });
  return { first, by: Int32Array.from(by), excluders };
};
