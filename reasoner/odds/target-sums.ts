import type { Joint } from './joint.ts';
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

  /** Adds one row, each chance so many times. */
  add({ from, targets, chances }: TargetRows, row: number, times: number): void {
    const { sums, targets: own } = this;
    const met = this.#met;
    let reach = this.reach;
    for (let i = from[row] as number, end = from[row + 1] as number; i < end; i += 1) {
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

export type TargetRows = Pick<Joint, 'from' | 'targets' | 'chances'>;

/** The rows of the parts of each run added up. */
export const addedUp = (joint: TargetRows, parts: Runs, sums: TargetSums): TargetRows => {
  const rows = parts.from.length - 1;
  const from = new Int32Array(rows + 1);
  const targets = new Int32Array(joint.targets.length);
  const chances = new Float64Array(joint.targets.length);
  let filled = 0;
  for (let row = 0; row < rows; row += 1) {
    for (let i = parts.from[row] as number; i < (parts.from[row + 1] as number); i += 1) sums.add(joint, parts.members[i] as number, 1);
    for (let i = 0; i < sums.reach; i += 1) {
      const target = sums.targets[i] as number;
      targets[filled] = target;
      chances[filled] = sums.sums[target] as number;
      filled += 1;
    }
    sums.clear();
    from[row + 1] = filled;
  }
  return { from, targets, chances };
};
