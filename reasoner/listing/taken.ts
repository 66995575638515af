interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Which places of a text, or of a row of words, are taken. */
export class Taken {
  readonly #places: Uint8Array;

  constructor(length: number) {
    this.#places = new Uint8Array(length);
  }

  isFree({ from, to }: Stretch): boolean {
    for (let at = from; at < to; at += 1) if (this.#places[at] === 1) return false;
    return true;
  }

  /** Takes a stretch where all of it is free; false where it is not. */
  take(stretch: Stretch): boolean {
    if (!this.isFree(stretch)) return false;
    this.#places.fill(1, stretch.from, stretch.to);
    return true;
  }
}
