import type { CompiledAtlas } from '../compile/compiled.ts';
import type { Built } from './built.ts';
import type { TargetSpace } from './targets.ts';

/**
 * Which demands of the names (`targets.ts`) a slot of a model can meet with parts of its own or that fit, whatever was seen, and which boxes ask for them.
 * These are few, however large the atlas is, and do not depend on the sheet; with a misfit any part can be met anywhere, and that is bounded, not listed (`pairs.ts`).
 */
export interface Reach {
  readonly slots: readonly SlotReach[];
  /** By box and slot (box after box): which demand of the slot it makes; −1 for any part. */
  readonly asks: Int32Array;
  readonly boxes: number;
}

export interface SlotReach {
  /** By seat, the demands some part the model lists is in. */
  readonly own: Shares;
  /** By pattern, the demands some part that fits is in. */
  readonly fits: Shares;
  /** By demand, its parts, ascending. */
  readonly demands: readonly Int32Array[];
  /** By demand, the boxes that make it; and the boxes that ask for no part of the slot. */
  readonly asking: readonly Int32Array[];
  readonly free: Int32Array;
}

/** Row after row, the demands a row shares parts with, ascending; of each the parts shared. */
export interface Shares {
  /** Where each row begins; one longer than the rows. */
  readonly from: Int32Array;
  readonly demands: Int32Array;
  /** Where the parts of each place in `demands` begin; one longer than it. */
  readonly partsFrom: Int32Array;
  readonly parts: Int32Array;
}

export const reachOf = (atlas: CompiledAtlas, built: Built, targets: TargetSpace): Reach => {
  const { boxes } = targets;
  const slots = atlas.slots.map(({ number, parts }): SlotReach => {
    atlas.pulse();
    const demands = targets.demands[number] ?? [];
    const inDemands: number[][] = parts.map(() => []);
    demands.forEach((demand, at) => {
      for (const part of demand) inDemands[part]?.push(at);
    });
    const asking: number[][] = demands.map(() => []);
    const free: number[] = [];
    boxes.forEach(({ demands: asked }, box) => {
      const demand = asked[number] as number;
      (demand < 0 ? free : (asking[demand] as number[])).push(box);
    });
    const partsOf = built.partsOf[number] ?? [];
    return {
      demands,
      own: sharesOf(
        (built.seats[number] ?? []).map(({ listed }) => [listed]),
        inDemands,
      ),
      fits: sharesOf(
        (built.patterns[number] ?? []).map((fits) => Array.from(fits, (mating) => partsOf[mating] as Int32Array)),
        inDemands,
      ),
      asking: asking.map((each) => Int32Array.from(each)),
      free: Int32Array.from(free),
    };
  });
  const asks = new Int32Array(boxes.length * slots.length);
  boxes.forEach(({ demands }, box) => {
    asks.set(demands, box * slots.length);
  });
  return { slots, asks, boxes: boxes.length };
};

const sharesOf = (rows: readonly (readonly Int32Array[])[], inDemands: readonly (readonly number[])[]): Shares => {
  const from = new Int32Array(rows.length + 1);
  const demands: number[] = [];
  const partsFrom: number[] = [0];
  const parts: number[] = [];
  rows.forEach((lists, row) => {
    const met = new Map<number, number[]>();
    for (const list of lists)
      for (const part of list)
        for (const demand of inDemands[part] as readonly number[]) {
          const known = met.get(demand);
          if (known) known.push(part);
          else met.set(demand, [part]);
        }
    for (const [demand, shared] of [...met].sort(([a], [b]) => a - b)) {
      demands.push(demand);
      for (const part of shared) parts.push(part);
      partsFrom.push(parts.length);
    }
    from[row + 1] = demands.length;
  });
  return { from, demands: Int32Array.from(demands), partsFrom: Int32Array.from(partsFrom), parts: Int32Array.from(parts) };
};

/** Where a row has a demand; −1 where it shares no part with it. */
export const placeOf = ({ from, demands }: Shares, row: number, demand: number): number => {
  let [low, high] = [from[row] as number, from[row + 1] as number];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((demands[middle] as number) < demand) low = middle + 1;
    else high = middle;
  }
  return low < (from[row + 1] as number) && demands[low] === demand ? low : -1;
};
