import type { CompiledAtlas } from '../atlas/compile.ts';
import { asId, type FamilyId, type ModelId, type NameId } from '../ids.ts';
import { type Demand, housingSlots, type NameRule, union } from '../names/compile-names.ts';
import { rankOf } from '../names/ladder.ts';
import type { Name } from '../verdict/verdict.ts';

/**
 * The names of the ladder as bits, best first, for a search that asks many builds in turn. Where every slot holds one part or nothing, a
 * name stands when each slot's part is among those it demands, so the names that stand are the bits left when the rows of all slots are
 * laid over each other (N3). Hybrids are kept by whether each housing is the core's own or any family's; which family is told afterwards.
 */
export interface NameRanks {
  readonly ranks: readonly number[];
  /** The row of a part, or of an empty slot (null). */
  rowOf(slot: number, part: number | null): Uint32Array;
  readonly words: number;
  /** The names a set of bits with this place stands for, given the part in each slot. */
  namesAt(place: number, partIn: (slot: number) => number | null): readonly NameId[];
}

interface Ranked {
  readonly rank: number;
  readonly demands: readonly Demand[];
  readonly core: NameRule;
  /** For a hybrid, by housing slot: the core's own, some family's, or not said. */
  readonly housings: readonly ('own' | 'family' | 'unidentified')[] | null;
}

const kept = new WeakMap<CompiledAtlas, NameRanks>();

export const nameRanksOf = (atlas: CompiledAtlas): NameRanks => {
  let ranks = kept.get(atlas);
  if (ranks === undefined) {
    ranks = compile(atlas);
    kept.set(atlas, ranks);
  }
  return ranks;
};

const compile = (atlas: CompiledAtlas): NameRanks => {
  const ranked = [
    ...atlas.names.map((rule): Ranked => ({ rank: rankOf(rule.name), demands: rule.demands, core: rule, housings: null })),
    ...hybrids(atlas),
  ].sort((a, b) => a.rank - b.rank);
  const words = Math.ceil(ranked.length / 32);
  const set = (row: Uint32Array, place: number): void => {
    row[place >>> 5] = (row[place >>> 5] as number) | (1 << (place & 31));
  };
  const tables = atlas.slots.map((_, slot) => {
    const empty = new Uint32Array(words);
    ranked.forEach(({ demands }, place) => {
      if ((demands[slot] ?? null) === null) set(empty, place);
    });
    const rows = new Map<number, Uint32Array>();
    ranked.forEach(({ demands }, place) => {
      for (const part of demands[slot] ?? []) {
        let row = rows.get(part);
        if (row === undefined) {
          row = empty.slice();
          rows.set(part, row);
        }
        set(row, place);
      }
    });
    return { empty, rows };
  });
  const rowOf: NameRanks['rowOf'] = (slot, part) => {
    const table = tables[slot] as (typeof tables)[number];
    return part === null ? table.empty : (table.rows.get(part) ?? table.empty);
  };
  return {
    ranks: ranked.map(({ rank }) => rank),
    words,
    rowOf,
    namesAt: (place, partIn) => {
      const { core, housings } = ranked[place] as Ranked;
      if (housings === null) return [core.name.id];
      const slots = housingSlots(atlas);
      const origins = slots.map(({ number }, i): readonly string[] => {
        const kind = housings[i];
        if (kind !== 'family') return [kind ?? 'unidentified'];
        const part = partIn(number);
        return [...atlas.housings.ofFamily].flatMap(([family, sets]) => (part !== null && sets[number]?.has(part) ? [family] : []));
      });
      return origins
        .reduce<string[][]>((all, list) => all.flatMap((head) => list.map((each) => [...head, each])), [[]])
        .map((chosen) => asId<NameId>(`${core.name.id}/${slots.map(({ slot }, i) => `${slot.id}=${chosen[i]}`).join('/')}`));
    },
  };
};

const hybrids = (atlas: CompiledAtlas): Ranked[] => {
  const slots = housingSlots(atlas);
  const anyFamily = slots.map(({ number }) => union([...atlas.housings.ofFamily.values()].flatMap((sets) => sets[number] ?? [])));
  return atlas.names
    .filter(({ name }) => name.rung === 'core')
    .flatMap((core) => {
      const own = slots.map(({ number }) =>
        union(core.name.models.flatMap((model: ModelId) => atlas.housings.ofModel.get(model)?.[number] ?? [])),
      );
      const ways = slots.reduce<('own' | 'family' | 'unidentified')[][]>(
        (all) => all.flatMap((head) => (['own', 'family', 'unidentified'] as const).map((each) => [...head, each])),
        [[]],
      );
      return ways.flatMap((housings): Ranked[] => {
        if (housings.every((each) => each === 'unidentified')) return [];
        const unidentified = housings.filter((each) => each === 'unidentified').length;
        const demands = core.demands.map((demand, slot) => {
          const i = slots.findIndex(({ number }) => number === slot);
          if (i < 0 || housings[i] === 'unidentified') return demand;
          return (housings[i] === 'own' ? own[i] : anyFamily[i]) ?? demand;
        });
        const said = housings.map((each, i): Name['housings'][number] => ({
          slot: (slots[i] as (typeof slots)[number]).slot.id,
          origin: each === 'family' ? ({ kind: 'family', family: asId<FamilyId>('any') } as const) : ({ kind: each } as const),
        }));
        const rank = rankOf({ ...core.name, rung: unidentified === 0 ? 'hybrid' : 'core', housings: said });
        return [{ rank, demands, core, housings }];
      });
    });
};
