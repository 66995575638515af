import type { Consistent } from './dualize.ts';

/** Labels that one choice gives up, or null where there is none that keeps what is to be kept. */
export type GivenUp = (kept: Uint8Array) => readonly number[] | null;

/** Of each kind of answer no more than this are remembered. */
const most = 2048;

/**
 * Whether labels can be kept together, asked of `search` only where nothing known answers: a choice found before answers yes for whatever it gives up nothing of, and labels that could not be
 * kept before answer no for whatever holds them all. For keeping fewer labels never makes them less consistent.
 */
export const remembering = (count: number, search: GivenUp): Consistent => {
  const width = Math.max(1, Math.ceil(count / 32));
  const [choices, conflicts] = [new Known(width), new Known(width)];
  const asked = new Int32Array(width);
  return (kept) => {
    asked.fill(0);
    for (let label = 0; label < count; label += 1) {
      if (kept[label] === 1) asked[label >>> 5] = (asked[label >>> 5] as number) | (1 << (label & 31));
    }
    if (choices.some((word, at) => (word & (asked[at] as number)) === 0)) return true;
    if (conflicts.some((word, at) => (word & ~(asked[at] as number)) === 0)) return false;
    const givenUp = search(kept);
    if (givenUp === null) conflicts.add(asked);
    else {
      const mask = new Int32Array(width);
      for (const label of givenUp) mask[label >>> 5] = (mask[label >>> 5] as number) | (1 << (label & 31));
      choices.add(mask);
    }
    return givenUp !== null;
  };
};

/** Sets of labels, those that answered last looked at first. */
class Known {
  readonly #width: number;
  readonly #sets: Int32Array[] = [];

  constructor(width: number) {
    this.#width = width;
  }

  add(set: Int32Array): void {
    if (this.#sets.length >= most) this.#sets.pop();
    this.#sets.unshift(set.slice());
  }

  /** Whether every word of some set is so. */
  some(so: (word: number, at: number) => boolean): boolean {
    for (let i = 0; i < this.#sets.length; i += 1) {
      const set = this.#sets[i] as Int32Array;
      let at = 0;
      while (at < this.#width && so(set[at] as number, at)) at += 1;
      if (at < this.#width) continue;
      if (i > 0) {
        this.#sets.splice(i, 1);
        this.#sets.unshift(set);
      }
      return true;
    }
    return false;
  }
}
