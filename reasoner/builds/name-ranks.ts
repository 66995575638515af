import type { HousingOrigin, Name } from '../answer/verdict.ts';
import { type CompiledAtlas, type CompiledSlot, slotAt } from '../compile/compiled.ts';
import { formedNameId } from '../compile/name-ids.ts';
import { type Demand, demandsCore, isSilent, type NameRule, notBarred, union } from '../compile/name-rule.ts';
import { housingSlots } from '../compile/name-texts.ts';
import { asId, type FamilyId, type ModelId, type NameId } from '../ids.ts';
import { ownersOf, ownHousings } from '../names/ladder.ts';
import { rankOf } from '../names/rank.ts';
import { product } from '../plain/product.ts';

/**
 * The names of the ladder as bits, best first, for a search that asks many builds in turn. Where every slot holds one part or nothing, a
 * name stands when each slot's part is among those it demands, so the names that stand are the bits left when the rows of all slots are
 * laid over each other (N3). Hybrids are kept by whether each housing is the core's own or any family's; which family is told afterwards.
 */
export interface NameRanks {
  readonly ranks: readonly number[];
  /** The row of a part, or of a slot without one the atlas lists. */
  rowOf(slot: number, part: number | Without): Uint32Array;
  readonly words: number;
  /** The place of the best name that stands, given the bits left of every slot's row. */
  bestOf(row: Uint32Array): number;
  /** Whether the name of this place stands by those bits. */
  standsAt(row: Uint32Array, place: number): boolean;
  /** The names a set of bits with this place stands for, given the part in each slot. */
  namesAt(place: number, partIn: (slot: number) => number | null): readonly NameId[];
}

/** A slot that holds nothing, one with a part the atlas does not list, and one nobody chose a part for, as a plate may be. */
export type Without = 'nothing' | 'a stranger' | 'not chosen';

interface Ranked {
  readonly rank: number;
  readonly asks: readonly Ask[];
  readonly name: Name;
  /** For a core with housings: where each is from, by housing slot, families left open; and whose own they are where the core alone does not say. */
  readonly housings: { readonly kinds: readonly HousingOrigin['kind'][]; readonly ownOf: ModelId | null } | null;
  /** Names none of which may be possible, where this is to stand; each has a row of its own, behind all that stand. */
  readonly noneOf: readonly NameRule[];
}

/** What is asked of one slot: the parts that do, or null where any does, and which slots without a listed part do. */
interface Ask {
  readonly parts: Demand;
  readonly without: readonly Without[];
}

const anyWithout: readonly Without[] = ['nothing', 'a stranger', 'not chosen'];

const demanded = (parts: Demand): Ask => ({ parts, without: parts === null ? anyWithout : [] });

/**
 * What leaves a name possible in a slot: of an open-ended list whatever is not known not to belong, and nothing only where nothing is listed (A7); of any list a slot nobody chose
 * a part for, which settles nothing.
 */
const possibly = (atlas: CompiledAtlas, rule: NameRule, slot: number): Ask => {
  const demand = rule.demands[slot] ?? null;
  if (demand === null) return demanded(null);
  if (!rule.open.has(slot)) return { parts: demand, without: ['not chosen'] };
  return { parts: notBarred(slotAt(atlas, slot), rule), without: isSilent(rule, slot) ? anyWithout : ['a stranger', 'not chosen'] };
};

const both = (one: Ask, other: Ask): Ask => ({
  parts: inBoth(one.parts, other.parts),
  without: one.without.filter((each) => other.without.includes(each)),
});

const inBoth = (one: Demand, other: Demand): Demand => {
  if (one === null || other === null) return one ?? other;
  return new Set([...one].filter((part) => other.has(part)));
};

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
  const inFamilies = familyParts(atlas);
  const possible = [...new Set(inFamilies.flatMap(({ noneOf }) => noneOf))];
  const ranked = [
    ...atlas.names.flatMap((rule) => fixedNames(atlas, rule)),
    ...inFamilies,
    ...hybrids(atlas),
    ...possible.map((rule) => possibleName(atlas, rule)),
  ].sort((a, b) => a.rank - b.rank);
  const blockers = ranked.map(({ noneOf }) => noneOf.map((rule) => ranked.length - possible.length + possible.indexOf(rule)));
  const isSet = (row: Uint32Array, place: number): boolean => (((row[place >>> 5] as number) >>> (place & 31)) & 1) === 1;
  const standsAt = (row: Uint32Array, place: number): boolean =>
    isSet(row, place) && !(blockers[place] as number[]).some((blocker) => isSet(row, blocker));
  const words = Math.ceil(ranked.length / 32);
  const set = (row: Uint32Array, place: number): void => {
    row[place >>> 5] = (row[place >>> 5] as number) | (1 << (place & 31));
  };
  const tables = atlas.slots.map((_, slot) => {
    const any = new Uint32Array(words);
    const without = { nothing: new Uint32Array(words), 'a stranger': new Uint32Array(words), 'not chosen': new Uint32Array(words) };
    ranked.forEach(({ asks }, place) => {
      const asked = asks[slot] as Ask;
      if (asked.parts === null) set(any, place);
      for (const each of asked.without) set(without[each], place);
    });
    const rows = new Map<number, Uint32Array>();
    ranked.forEach(({ asks }, place) => {
      for (const part of asks[slot]?.parts ?? []) {
        let row = rows.get(part);
        if (row === undefined) {
          row = any.slice();
          rows.set(part, row);
        }
        set(row, place);
      }
    });
    return { any, without, rows };
  });
  const rowOf: NameRanks['rowOf'] = (slot, part) => {
    const table = tables[slot] as (typeof tables)[number];
    return typeof part === 'number' ? (table.rows.get(part) ?? table.any) : table.without[part];
  };
  return {
    ranks: ranked.map(({ rank }) => rank),
    words,
    rowOf,
    standsAt,
    bestOf: (row) => {
      let place = firstOf(row);
      while (!standsAt(row, place)) place += 1;
      return place;
    },
    namesAt: (place, partIn) => {
      const { name, housings } = ranked[place] as Ranked;
      if (housings === null) return [name.id];
      const slots = housingSlots(atlas);
      const own = ownFamilies(atlas, name, housings.ownOf);
      const origins = slots.map(({ number }, i): HousingOrigin[] => {
        const kind = housings.kinds[i] ?? 'unidentified';
        if (kind === 'own' || kind === 'unidentified') return [{ kind }];
        const part = partIn(number);
        return [...atlas.housings.ofFamily].flatMap(([family, lists]) =>
          part !== null && own.has(family) === (kind === 'own family') && lists[number]?.parts.has(part) ? [{ kind, family }] : [],
        );
      });
      return [...product(origins)].map((chosen) =>
        formedNameId(
          name.id,
          housings.ownOf,
          slots.map(({ data: slot }, i) => ({ slot: slot.id, origin: chosen[i] as HousingOrigin })),
        ),
      );
    },
  };
};

const named = (name: Name, asks: readonly Ask[]): Ranked => ({ rank: rankOf(name), asks, name, housings: null, noneOf: [] });

/**
 * A compiled name as sets of parts that make it stand. One that says only that it is one of several stands where its own demands are met and one
 * of the several is not ruled out (N4), so there is a set for each of those.
 */
const fixedNames = (atlas: CompiledAtlas, rule: NameRule): Ranked[] => {
  const { name, demands, anyOf } = rule;
  if (name.rung !== 'parts' && !demandsCore(atlas, rule)) return [];
  if (anyOf === null) return [named(name, demands.map(demanded))];
  return anyOf.map((one) =>
    named(
      name,
      demands.map((demand, slot) => both(demanded(demand), possibly(atlas, one, slot))),
    ),
  );
};

/** Parts of a family that are of no one model. A model that is possible and of a whole list stands, and so ranks before; the others are asked about. */
const familyParts = (atlas: CompiledAtlas): Ranked[] =>
  atlas.familyParts.flatMap(({ rule, noneOf }) =>
    demandsCore(atlas, rule)
      ? [
          {
            ...named(rule.name, rule.demands.map(demanded)),
            noneOf: noneOf.filter((model) => model.open.size > 0 || !demandsCore(atlas, model)),
          },
        ]
      : [],
  );

/** A name as sets of parts that leave it possible; behind all names that stand. */
const possibleName = (atlas: CompiledAtlas, rule: NameRule): Ranked => ({
  ...named(
    rule.name,
    rule.demands.map((_, slot) => possibly(atlas, rule, slot)),
  ),
  rank: Number.POSITIVE_INFINITY,
});

/** The first bit set; the list of parts is the last of the names and always stands. */
export const firstOf = (row: Uint32Array): number => {
  for (let word = 0; word < row.length; word += 1) {
    const bits = row[word] as number;
    if (bits !== 0) return word * 32 + (31 - Math.clz32(bits & -bits));
  }
  throw new Error('no name stands, not even a list of parts');
};

const hybrids = (atlas: CompiledAtlas): Ranked[] => {
  const slots = housingSlots(atlas);
  return atlas.names
    .filter((rule) => rule.name.rung === 'core' && demandsCore(atlas, rule))
    .flatMap((core) => {
      const housingsOf = (kind: HousingOrigin['kind'], slot: number, ownOf: ModelId | null): Demand => {
        switch (kind) {
          case 'own':
            return ownHousings(atlas, ownOf === null ? core.name.models : [ownOf], slot).parts;
          case 'own family':
          case 'family': {
            const families = ownFamilies(atlas, core.name, ownOf);
            return union(
              [...atlas.housings.ofFamily].flatMap(([family, lists]) =>
                families.has(family) === (kind === 'own family') ? (lists[slot]?.parts ?? []) : [],
              ),
            );
          }
          case 'unidentified':
            return null;
        }
      };
      return [...product(slots.map(() => ['own', 'own family', 'family', 'unidentified'] as const))].flatMap((kinds): Ranked[] => {
        if (kinds.every((kind) => kind === 'unidentified') || kinds.every((kind) => kind === 'own')) return [];
        const said = kinds.map((kind, i): Name['housings'][number] => ({
          slot: (slots[i] as CompiledSlot).data.id,
          origin: kind === 'family' || kind === 'own family' ? { kind, family: asId<FamilyId>('any') } : { kind },
        }));
        const rank = rankOf({ ...core.name, rung: kinds.includes('unidentified') ? 'core' : 'hybrid', housings: said });
        return ownersOf(core.name.models, kinds.filter((kind) => kind === 'own').length).map((ownOf) => ({
          rank,
          asks: core.demands.map((demand, slot) => {
            const i = slots.findIndex(({ number }) => number === slot);
            return demanded(i < 0 ? demand : housingsOf(kinds[i] ?? 'unidentified', slot, ownOf));
          }),
          name: core.name,
          housings: { kinds, ownOf },
          noneOf: [],
        }));
      });
    });
};

/** The families of the models a name speaks of: of the one whose own housings it has, where that is said. */
const ownFamilies = (atlas: CompiledAtlas, { models }: Name, ownOf: ModelId | null): ReadonlySet<FamilyId> =>
  new Set((ownOf === null ? models : [ownOf]).flatMap((model) => atlas.models.get(model)?.family ?? []));
