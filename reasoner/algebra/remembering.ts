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
    if (choices.someApart(asked)) return true;
    if (conflicts.someWithin(asked)) return false;
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

/** Sets of labels one after another; one that answers moves a place forward, so that those that answer often are soon met. */
class Known {
  readonly #width: number;
  #words: Int32Array;
  #count = 0;

  constructor(width: number) {
    this.#width = width;
    this.#words = new Int32Array(width * 16);
  }

  /** Beyond `most` the last gives way. */
  add(set: Int32Array): void {
    if (this.#count < most) this.#count += 1;
    if (this.#count * this.#width > this.#words.length) {
      const wider = new Int32Array(this.#words.length * 2);
      wider.set(this.#words);
      this.#words = wider;
    }
    this.#words.set(set, (this.#count - 1) * this.#width);
  }

  /** Whether some set has no label of these. */
  someApart(labels: Int32Array): boolean {
    for (let i = 0; i < this.#count; i += 1) {
      const from = i * this.#width;
      let at = 0;
      while (at < this.#width && ((this.#words[from + at] as number) & (labels[at] as number)) === 0) at += 1;
      if (at === this.#width) return this.#forward(i);
    }
    return false;
  }

  /** Whether these hold all labels of some set. */
  someWithin(labels: Int32Array): boolean {
    for (let i = 0; i < this.#count; i += 1) {
      const from = i * this.#width;
      let at = 0;
      while (at < this.#width && ((this.#words[from + at] as number) & ~(labels[at] as number)) === 0) at += 1;
      if (at === this.#width) return this.#forward(i);
    }
    return false;
  }

  #forward(i: number): true {
    const [here, before] = [i * this.#width, (i - 1) * this.#width];
    for (let at = 0; i > 0 && at < this.#width; at += 1) {
      const word = this.#words[here + at] as number;
      this.#words[here + at] = this.#words[before + at] as number;
      this.#words[before + at] = word;
    }
    return true;
  }
}
