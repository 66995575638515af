import type { JointOdds } from './joint-odds.ts';
import type { Runs } from './looks.ts';

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
  #weights = new Float64Array(0);
  readonly #sums: TargetSums;

  constructor(sums: TargetSums) {
    this.#sums = sums;
  }

  /** The rows of the parts of each run added up. */
  rows(joint: TargetRows, parts: Runs): TargetRows {
    const sums = this.#sums;
    const rows = parts.from.length - 1;
    this.#makeRoom(rows, joint.targets.length);
    const [from, weights, targets, chances] = [this.#from, this.#weights, this.#targets, this.#chances];
    let filled = 0;
    for (let row = 0; row < rows; row += 1) {
      let weight = 0;
      for (let i = parts.from[row] as number; i < (parts.from[row + 1] as number); i += 1) {
        const part = parts.members[i] as number;
        weight += joint.weights[part] as number;
        const first = joint.from[part] as number;
        const end = joint.from[part + 1] as number;
        if (end > first) sums.add(joint, 1, first, end);
      }
      for (let i = 0; i < sums.reach; i += 1) {
        const target = sums.targets[i] as number;
        targets[filled] = target;
        chances[filled] = sums.sums[target] as number;
        filled += 1;
      }
      sums.clear();
      weights[row] = weight;
      from[row + 1] = filled;
    }
    return { from, targets, chances, any: joint.any, weights };
  }

  #makeRoom(rows: number, entries: number): void {
    if (this.#targets.length < entries) {
      this.#targets = new Int32Array(2 * entries);
      this.#chances = new Float64Array(2 * entries);
    }
    if (this.#weights.length < rows) {
      this.#from = new Int32Array(2 * rows + 1);
      this.#weights = new Float64Array(2 * rows);
    }
  }
}
