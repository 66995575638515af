import type { JointOdds } from './joint-odds.ts';
import type { Looks } from './looks.ts';

/** Sums by target, of few targets at a time. */
export class TargetSums {
  readonly sums: Float64Array;
  readonly #met: Uint8Array;
  /** The targets met since the last clearing, so many of them. */
  readonly targets: Int32Array;
  reach = 0;

  constructor(width: number) {
    this.sums = new Float64Array(width);
    this.#met = new Uint8Array(width);
    this.targets = new Int32Array(width);
  }

  /** Adds a stretch of chances, each so many times. */
  add({ targets, chances }: Pick<JointOdds, 'targets' | 'chances'>, times: number, first: number, end: number): void {
    const { sums, targets: own } = this;
    const met = this.#met;
    let reach = this.reach;
    for (let i = first; i < end; i += 1) {
      const target = targets[i] as number;
      if (met[target] === 0) {
        met[target] = 1;
        own[reach++] = target;
      }
      sums[target] = (sums[target] as number) + times * (chances[i] as number);
    }
    this.reach = reach;
  }

  clear(): void {
    for (let i = 0; i < this.reach; i += 1) {
      const target = this.targets[i] as number;
      this.sums[target] = 0;
      this.#met[target] = 0;
    }
    this.reach = 0;
  }
}

/** Rows of targets with their chances; beside each, its weight times `any`, which is the same for all. */
export type TargetRows = Omit<JointOdds, 'lost'>;

/** Where rows are added up, one feature after the other: what is there is gone with the next. */
export class AddedUp {
  #targets = new Int32Array(0);
  #chances = new Float64Array(0);
  #from = new Int32Array(0);
  #held = new Int32Array(0);
  /** By run: how many rows it holds, then where its next is; and the rows, run after run. */
  #places = new Int32Array(0);
  #inRuns = new Int32Array(0);
  readonly #sums: TargetSums;

  constructor(sums: TargetSums) {
    this.#sums = sums;
  }

  /** The rows of the parts of each run added up. @param weights of the runs */
  rows(joint: TargetRows, { runOf, runs }: Looks, weights: Float64Array): TargetRows {
    const sums = this.#sums;
    this.#makeRoom(runs, joint);
    this.#sort(joint.held, runOf, runs);
    const [from, held, targets, chances, inRuns] = [this.#from, this.#held, this.#targets, this.#chances, this.#inRuns];
    let filled = 0;
    let count = 0;
    let next = 0;
    for (let run = 0; run < runs; run += 1) {
      const end = this.#places[run] as number;
      if (end > next) held[count++] = run;
      for (; next < end; next += 1) {
        const part = inRuns[next] as number;
        sums.add(joint, 1, joint.from[part] as number, joint.from[part + 1] as number);
      }
      for (let i = 0; i < sums.reach; i += 1) {
        const target = sums.targets[i] as number;
        targets[filled] = target;
        chances[filled] = sums.sums[target] as number;
        filled += 1;
      }
      sums.clear();
      from[run + 1] = filled;
    }
    return { from, held: held.subarray(0, count), targets, chances, any: joint.any, weights };
  }

  /** Puts rows into their runs. */
  #sort(rows: Int32Array, runOf: Int32Array, runs: number): void {
    const [places, inRuns] = [this.#places, this.#inRuns];
    places.fill(0, 0, runs);
    for (let i = 0; i < rows.length; i += 1) {
      const run = runOf[rows[i] as number] as number;
      places[run] = (places[run] as number) + 1;
    }
    let next = 0;
    for (let run = 0; run < runs; run += 1) {
      const own = places[run] as number;
      places[run] = next;
      next += own;
    }
    for (let i = 0; i < rows.length; i += 1) {
      const run = runOf[rows[i] as number] as number;
      const at = places[run] as number;
      inRuns[at] = rows[i] as number;
      places[run] = at + 1;
    }
  }

  #makeRoom(runs: number, { targets, held }: TargetRows): void {
    if (this.#targets.length < targets.length) {
      this.#targets = new Int32Array(2 * targets.length);
      this.#chances = new Float64Array(2 * targets.length);
    }
    if (this.#inRuns.length < held.length) this.#inRuns = new Int32Array(2 * held.length);
    if (this.#places.length < runs) {
      this.#places = new Int32Array(2 * runs);
      this.#from = new Int32Array(2 * runs + 1);
      this.#held = new Int32Array(2 * runs);
    }
  }
}
