/** Sums by row and column, added to in any order; most rows have few columns. */
export class SparseSums {
  /** Of the row last read: its columns, in no order, and their sums. */
  readonly columns: Int32Array;
  readonly values: Float64Array;
  // Each row is a chain of what was added to it, the latest first.
  readonly #last: Int32Array;
  #before = new Int32Array(1024);
  #column = new Int32Array(1024);
  #value = new Float64Array(1024);
  #used = 0;
  readonly #sums: Float64Array;
  readonly #met: Uint8Array;

  /** @param rows how many rows @param width how many columns */
  constructor(rows: number, width: number) {
    this.#last = new Int32Array(rows).fill(-1);
    this.columns = new Int32Array(width);
    this.values = new Float64Array(width);
    this.#sums = new Float64Array(width);
    this.#met = new Uint8Array(width);
  }

  /** How many additions there were: no fewer than all rows have columns. */
  get size(): number {
    return this.#used;
  }

  /** Empties all rows. */
  clear(): void {
    this.#last.fill(-1);
    this.#used = 0;
  }

  has(row: number): boolean {
    return this.#last[row] !== -1;
  }

  add(row: number, column: number, value: number): void {
    const at = this.#used;
    if (at === this.#before.length) this.#grow();
    this.#before[at] = this.#last[row] as number;
    this.#column[at] = column;
    this.#value[at] = value;
    this.#last[row] = at;
    this.#used = at + 1;
  }

  /** Adds a row up into `columns` and `values`. @param least sums no further from nothing than this are left out @returns how many columns there are */
  read(row: number, least: number): number {
    const { columns, values } = this;
    const [before, column, value, sums, met] = [this.#before, this.#column, this.#value, this.#sums, this.#met];
    let reach = 0;
    for (let at = this.#last[row] as number; at !== -1; at = before[at] as number) {
      const to = column[at] as number;
      if (met[to] === 0) {
        met[to] = 1;
        columns[reach++] = to;
      }
      sums[to] = (sums[to] as number) + (value[at] as number);
    }
    let kept = 0;
    for (let i = 0; i < reach; i += 1) {
      const to = columns[i] as number;
      const sum = sums[to] as number;
      sums[to] = 0;
      met[to] = 0;
      if (Math.abs(sum) <= least) continue;
      columns[kept] = to;
      values[kept] = sum;
      kept += 1;
    }
    return kept;
  }

  #grow(): void {
    const length = this.#before.length * 2;
    const [before, column, value] = [new Int32Array(length), new Int32Array(length), new Float64Array(length)];
    before.set(this.#before);
    column.set(this.#column);
    value.set(this.#value);
    [this.#before, this.#column, this.#value] = [before, column, value];
  }
}
