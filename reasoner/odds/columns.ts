import type { TargetRows } from './target-sums.ts';

/** Rows turned round, one feature after the other: what is there is gone with the next. */
export class Columns {
  /** The targets met, so many of them; where the places of each begin, one longer than they. */
  readonly targets: Int32Array;
  readonly from: Int32Array;
  reach = 0;
  rows = new Int32Array(0);
  chances = new Float64Array(0);
  /** By target: how many places, then where the next is. */
  readonly #places: Int32Array;

  constructor(width: number) {
    this.targets = new Int32Array(width);
    this.from = new Int32Array(width + 1);
    this.#places = new Int32Array(width);
  }

  /** @param counts whether a row is wanted */
  turn({ from: begin, held, targets: of, chances: often }: TargetRows, counts: (row: number) => boolean): void {
    const { targets, from } = this;
    const places = this.#places;
    let reach = 0;
    let all = 0;
    for (let k = 0; k < held.length; k += 1) {
      const row = held[k] as number;
      if (!counts(row)) continue;
      const end = begin[row + 1] as number;
      for (let i = begin[row] as number; i < end; i += 1) {
        const target = of[i] as number;
        if (places[target] === 0) targets[reach++] = target;
        places[target] = (places[target] as number) + 1;
        all += 1;
      }
    }
    if (this.rows.length < all) {
      this.rows = new Int32Array(2 * all);
      this.chances = new Float64Array(2 * all);
    }
    let next = 0;
    for (let i = 0; i < reach; i += 1) {
      const target = targets[i] as number;
      from[i] = next;
      next += places[target] as number;
      places[target] = from[i] as number;
    }
    from[reach] = next;
    this.reach = reach;
    const [own, chances] = [this.rows, this.chances];
    for (let k = 0; k < held.length; k += 1) {
      const row = held[k] as number;
      if (!counts(row)) continue;
      const end = begin[row + 1] as number;
      for (let i = begin[row] as number; i < end; i += 1) {
        const target = of[i] as number;
        const at = places[target] as number;
        own[at] = row;
        chances[at] = often[i] as number;
        places[target] = at + 1;
      }
    }
    for (let i = 0; i < reach; i += 1) places[targets[i] as number] = 0;
  }
}
