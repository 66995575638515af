import type { Family, Model } from '../atlas/atlas.ts';
import { asId, type FamilyId, type NameId } from '../ids.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import type { HousingOrigin, Name, Rung } from '../verdict/verdict.ts';
import { type Demand, familyName, fullNames, housingSlots, type NameRule, union } from './compile-names.ts';
import { type Judged, judge, liveWithin } from './status.ts';

/** Names of the three model rungs are one level: each says what model the unit is. */
export type Level = 'model' | 'hybrid' | 'core' | 'family' | 'pattern core' | 'parts';
const levels: readonly Level[] = ['model', 'hybrid', 'core', 'family', 'pattern core', 'parts'];

export const levelOf = (rung: Rung): Level => {
  switch (rung) {
    case 'model':
    case 'model with options':
    case 'model with service parts replaced':
      return 'model';
    case 'hybrid':
    case 'core':
    case 'family':
    case 'pattern core':
    case 'parts':
      return rung;
  }
};

/**
 * Where a name stands on the ladder, lower is better. Within a rung the name that says more is better: fewer housings unidentified,
 * then more of the core's own, then the whole unit's family before its core's.
 */
export const rankOf = (name: Name): number => {
  const rungRank: Record<Rung, number> = {
    model: 0,
    'model with options': 1,
    'model with service parts replaced': 2,
    hybrid: 3,
    core: 4,
    family: 5,
    'pattern core': 6,
    parts: 7,
  };
  const unidentified = name.housings.filter(({ origin }) => origin.kind === 'unidentified').length;
  const foreign = name.housings.filter(({ origin }) => origin.kind === 'family').length;
  const coreOnly = name.id.startsWith('family-core:') ? 1 : 0;
  return rungRank[name.rung] * 100 + unidentified * 10 + foreign + coreOnly;
};

/** How many open hybrids are formed before the ladder says it stopped. */
const hybridLimit = 500;
/** How many are tried, ruled out or not: on a large atlas a core that any housing fits could be tried with hundreds of thousands of pairs. */
const mostTried = 5000;

export interface Ladder {
  /** Best first. */
  readonly judged: readonly Judged[];
  /** False when more hybrids were open than are formed. */
  readonly complete: boolean;
}

/** Judges every name of the atlas for a unit, and forms the hybrids the unit calls for (N4). */
export const ladderOf = (unit: Unit): Ladder => {
  const judged = unit.atlas.names.map((rule) => judge(unit, rule));
  const modelPossible = judged.some(({ rule, status }) => levelOf(rule.name.rung) === 'model' && status !== 'ruled out');
  const cores = judged.filter(({ rule, status }) => rule.name.rung === 'core' && status !== 'ruled out');
  const formed: Judged[] = [];
  let complete = true;
  let tried = 0;
  const housings = housingSlots(unit.atlas).map(({ number }) => number);
  // Where some model is possible, only a core that stands is said with its housings.
  const said = cores.filter(({ status }) => !modelPossible || status === 'stands');
  const ofFamilies = said.length === 0 ? [] : housings.map((slot) => familyOrigins(unit, slot));
  for (const core of said) {
    const origins = housings.map((slot, i) => [...ownOrigin(unit, core.rule, slot), ...(ofFamilies[i] as Origin[])]);
    if (core.status === 'stands') {
      for (const chosen of product(origins.map((each) => [...each.filter(({ within }) => within.all), null]))) {
        if (chosen.every((each) => each === null)) continue;
        formed.push(judge(unit, withHousings(unit, core.rule, chosen)));
      }
    }
    if (modelPossible) continue;
    for (const chosen of product(origins.map((each) => each.filter(({ within }) => within.some)))) {
      if (core.status === 'stands' && chosen.every(({ within }) => within.all)) continue;
      tried += 1;
      if (formed.length >= hybridLimit || tried > mostTried) {
        complete = false;
        break;
      }
      const hybrid = judge(unit, withHousings(unit, core.rule, chosen));
      if (hybrid.status !== 'ruled out') formed.push(hybrid);
    }
  }
  const all = [...judged, ...formed];
  const ranks = new Map(all.map((each) => [each, rankOf(each.rule.name)]));
  return { judged: all.sort((a, b) => (ranks.get(a) as number) - (ranks.get(b) as number)), complete };
};

/** The names on the best rank that stands; there is always one, the list of parts. */
export const honestOf = ({ judged }: Ladder): readonly Judged[] => {
  const best = judged.find(({ status }) => status === 'stands') as Judged;
  return judged.filter(({ rule, status }) => status === 'stands' && rankOf(rule.name) === rankOf(best.rule.name));
};

/**
 * The open names on the best level above the honest name that has any: of a model that is open on several rungs, its best rung.
 * On the level of the honest name itself only better-ranked names count.
 */
export const openAbove = ({ judged }: Ladder, honest: readonly Judged[]): readonly Judged[] => {
  const limit = rankOf((honest[0] as Judged).rule.name);
  const open = judged.filter(({ rule, status }) => status === 'open' && rankOf(rule.name) < limit);
  for (const level of levels) {
    const here = open.filter(({ rule }) => levelOf(rule.name.rung) === level);
    if (here.length === 0) continue;
    const seen = new Set<string>();
    return here.filter(({ rule }) => {
      const key = level === 'model' ? rule.name.models.join() : rule.name.id;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    });
  }
  return [];
};

interface Origin {
  readonly slot: number;
  readonly origin: HousingOrigin;
  readonly parts: ReadonlySet<number>;
  readonly within: { readonly all: boolean; readonly some: boolean };
}

/** That a housing slot holds one of the core's own; nothing where no live housing is one. */
const ownOrigin = (unit: Unit, core: NameRule, slot: number): Origin[] => {
  const { ofModel } = unit.atlas.housings;
  const own = core.name.models.flatMap((model) => {
    const parts = ofModel.get(model)?.[slot];
    return parts ? [parts] : [];
  });
  return own.length === 0 ? [] : originIn(unit, slot, { kind: 'own' }, union(own));
};

/** The families a live housing of the slot may be of: the same for every core. */
const familyOrigins = (unit: Unit, slot: number): Origin[] =>
  [...unit.atlas.housings.ofFamily].flatMap(([family, sets]) => originIn(unit, slot, { kind: 'family', family }, sets[slot] ?? null));

const originIn = (unit: Unit, slot: number, origin: HousingOrigin, parts: Demand): Origin[] => {
  if (parts === null) return [];
  const within = liveWithin(unit.slots[slot] as UnitSlot, parts);
  return within.some ? [{ slot, origin, parts, within }] : [];
};

const withHousings = (unit: Unit, core: NameRule, chosen: readonly (Origin | null)[]): NameRule => {
  const housings = housingSlots(unit.atlas).map(({ slot }, i) => ({
    slot: slot.id,
    origin: chosen[i]?.origin ?? ({ kind: 'unidentified' } as const),
  }));
  const rung: Rung = chosen.some((each) => each === null) ? 'core' : 'hybrid';
  return {
    name: { ...core.name, id: hybridId(core.name.id, housings), rung, housings, text: hybridText(unit, core, housings) },
    demands: core.demands.map((demand, slot) => chosen.find((each) => each?.slot === slot)?.parts ?? demand),
  };
};

const hybridId = (core: NameId, housings: Name['housings']): NameId =>
  asId<NameId>(
    `${core}/${housings.map(({ slot, origin }) => `${slot}=${origin.kind === 'family' ? origin.family : origin.kind}`).join('/')}`,
  );

const hybridText = (unit: Unit, core: NameRule, housings: Name['housings']): string => {
  const { atlas } = unit;
  const of = fullNames(
    atlas,
    core.name.models.map((model) => atlas.models.get(model) as Model),
  );
  const nameOf = (slot: string): string => atlas.atlas.slots.find(({ id }) => id === slot)?.name ?? slot;
  const phrase = ({ slot, origin }: Name['housings'][number]): string => {
    switch (origin.kind) {
      case 'own':
        return `its own ${nameOf(slot)}`;
      case 'family':
        return `${nameOf(slot)} of ${familyName(atlas, atlas.families.get(origin.family) as Family)}`;
      case 'unidentified':
        return `unidentified ${nameOf(slot)}`;
    }
  };
  return `core of ${of} with ${housings.map(phrase).join(' and ')}`;
};

/** The name with this id, compiled or formed for a unit; undefined when there is none. */
export const findRule = (unit: Unit, id: NameId): NameRule | undefined => {
  const compiled = unit.atlas.names.find(({ name }) => name.id === id);
  if (compiled) return compiled;
  const [coreId, ...rest] = id.split('/');
  const core = unit.atlas.names.find(({ name }) => name.id === coreId && name.rung === 'core');
  if (!core) return undefined;
  const wanted = new Map(rest.map((pair) => [pair.slice(0, pair.indexOf('=')), pair.slice(pair.indexOf('=') + 1)]));
  const { ofFamily, ofModel } = unit.atlas.housings;
  const chosen = housingSlots(unit.atlas).map(({ slot, number }): Origin | null | undefined => {
    const said = wanted.get(slot.id);
    if (said === undefined || said === 'unidentified') return null;
    if (said === 'own') {
      const own = core.name.models.flatMap((model) =>
        ofModel.get(model)?.[number] ? [ofModel.get(model)?.[number] as ReadonlySet<number>] : [],
      );
      return { slot: number, origin: { kind: 'own' }, parts: union(own), within: { all: false, some: false } };
    }
    const parts = ofFamily.get(said as FamilyId)?.[number];
    return parts
      ? { slot: number, origin: { kind: 'family', family: said as FamilyId }, parts, within: { all: false, some: false } }
      : undefined;
  });
  if (chosen.some((each) => each === undefined)) return undefined;
  return withHousings(unit, core, chosen as (Origin | null)[]);
};

const product = <T>(lists: readonly (readonly T[])[]): T[][] =>
  lists.reduce<T[][]>((all, list) => all.flatMap((head) => list.map((each) => [...head, each])), [[]]);
