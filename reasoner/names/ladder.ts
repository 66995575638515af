import { type Lists, listsOf } from '../algebra/lists.ts';
import type { HousingOrigin, Name, Rung } from '../answer/verdict.ts';
import type { Family, Model } from '../atlas/atlas.ts';
import { type CompiledAtlas, type HousingList, slotAt } from '../compile/compiled.ts';
import { familyPartsNamed, formedNameId, isFamilyPartsNameId, readFormedNameId, ruleNamed, serviceNameId } from '../compile/name-ids.ts';
import { type NameRule, union } from '../compile/name-rule.ts';
import { familyName, fullNames, housingSlots } from '../compile/name-texts.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { FamilyId, ModelId, NameId } from '../ids.ts';
import { product } from '../plain/product.ts';
import { withArticle } from '../plain/text.ts';
import { partsNumbered } from '../plate/part-index.ts';
import { partsIn } from '../unit/groups.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import { holdFamilyParts, holdNames, type Judged, rankedNames, ruledOut } from './demand-table.ts';
import { type Level, levelOf, levels, rankOf } from './rank.ts';
import { judgeFor, judgeWith, liveWithin, mayBeOf } from './status.ts';

/** How many open hybrids are formed before the ladder says it stopped. */
const hybridLimit = 500;
/** How many are tried, ruled out or not: on a large atlas a core that any housing fits could be tried with hundreds of thousands of pairs. */
const mostTried = 5000;

export interface Ladder {
  /** The names that are not ruled out, best first. */
  readonly possible: readonly Judged[];
  /** Every name, best first. Of a large atlas nearly all are ruled out: they are put together when they are first asked for. */
  readonly all: () => readonly Judged[];
  /** How many names there are in all. */
  readonly count: number;
  /** A name of the atlas, whether or not it is ruled out. */
  readonly named: (id: NameId) => Judged | undefined;
  /** False when more hybrids were open than are formed. */
  readonly complete: boolean;
}

/** Judges every name of the atlas for a unit, and forms the names the unit calls for: hybrids, and parts of a family of no one model (N4). */
export const ladderOf = (unit: Unit): Ladder => {
  const names = holdNames(unit);
  const judging = judgeWith(unit, names);
  const judge = (rule: NameRule): Judged => {
    unit.atlas.pulse();
    return judging.judge(rule);
  };
  const plated = platedIn(unit);
  const withWords = (rule: NameRule): Judged => withRule(judge(rule), plated(rule));
  const ofAtlas: Judged[] = [];
  for (const name of names.unblocked()) {
    unit.atlas.pulse();
    const judged = judging.numbered(name);
    if (isPossible(judged)) ofAtlas.push(withRule(judged, plated(judged.rule)));
  }
  const formed: Judged[] = familyPartsOf(unit, judge).map(judge);
  const level = (of: Level) => ofAtlas.filter(({ rule }) => levelOf(rule.name.rung) === of);
  const modelPossible = level('model').length + level('all parts').length > 0;
  let complete = true;
  let tried = 0;
  const housings = housingSlots(unit.atlas).map(({ number }) => number);
  // Where some model is possible, only a core that stands is said with its housings.
  const said = level('core').filter(({ status }) => !modelPossible || status === 'stands');
  const ofFamilies = said.length === 0 ? [] : housings.map((slot) => familyOrigins(unit, slot));
  for (const core of said) {
    // Nothing more is tried, and that is said already.
    if (!complete && core.status !== 'stands') continue;
    const origins = housings.map((slot, i) => [
      ...ownOrigin(unit, core.rule, slot),
      ...inFamilies(unit, core.rule, ofFamilies[i] as Origin[]),
    ]);
    if (core.status === 'stands') {
      for (const chosen of product(origins.map((each) => [...each.filter(({ within }) => within.all), null]))) {
        if (chosen.every((each) => each === null) || chosen.every(isOwn)) continue;
        formed.push(...withHousings(unit, core.rule, chosen).map(judge));
      }
    }
    if (modelPossible) continue;
    for (const chosen of product(origins)) {
      if (chosen.every(isOwn) || (core.status === 'stands' && chosen.every(({ within }) => within.all))) continue;
      tried += 1;
      if (formed.length >= hybridLimit || tried > mostTried) {
        complete = false;
        break;
      }
      formed.push(
        ...withHousings(unit, core.rule, chosen)
          .map(judge)
          .filter(({ status }) => status !== 'ruled out'),
      );
    }
  }
  let all: readonly Judged[] | undefined;
  return {
    possible: mergedByRank(ofAtlas, formed.filter(isPossible)),
    all: () => {
      all ??= mergedByRank(rankedNames(unit.atlas).map(withWords), formed);
      return all;
    },
    count: unit.atlas.names.length + formed.length,
    named: (id) => {
      const rule = ruleNamed(unit.atlas, id);
      return rule && withWords(rule);
    },
    complete,
  };
};

const isPossible = ({ status }: Judged): boolean => status !== 'ruled out';

const withRule = (judged: Judged, rule: NameRule): Judged => {
  if (rule === judged.rule) return judged;
  if (judged.status !== 'ruled out') return { ...judged, rule };
  let plated = ruledOutPlated.get(rule);
  if (plated === undefined) {
    plated = ruledOut(rule);
    ruledOutPlated.set(rule, plated);
  }
  return plated;
};

const ruledOutPlated = new WeakMap<NameRule, Judged>();

/** Both best first; of one rank those of the atlas before those formed for the unit. */
const mergedByRank = (ofAtlas: readonly Judged[], formed: readonly Judged[]): readonly Judged[] => {
  if (formed.length === 0) return ofAtlas;
  const behind = [...formed].sort((a, b) => rankOf(a.rule.name) - rankOf(b.rule.name));
  const all: Judged[] = [];
  let at = 0;
  const addBetterThan = (rank: number): void => {
    for (let next = behind[at]; next !== undefined && rankOf(next.rule.name) < rank; next = behind[at]) {
      all.push(next);
      at += 1;
    }
  };
  for (const each of ofAtlas) {
    if (at < behind.length) addBetterThan(rankOf(each.rule.name));
    all.push(each);
  }
  addBetterThan(Number.POSITIVE_INFINITY);
  return all;
};

/** The names on the best rank that stands; there is always one, the list of parts. */
export const honestOf = ({ possible }: Pick<Ladder, 'possible'>): readonly Judged[] => {
  const best = possible.find(({ status }) => status === 'stands') as Judged;
  return possible.filter(({ rule, status }) => status === 'stands' && rankOf(rule.name) === rankOf(best.rule.name));
};

/**
 * The open names on the best level above the honest name that has any: of a model that is open on several rungs, its best rung.
 * On the level of the honest name itself only better-ranked names count.
 */
export const openAbove = ({ possible }: Ladder, honest: readonly Judged[]): readonly Judged[] => {
  const limit = rankOf((honest[0] as Judged).rule.name);
  const open = possible.filter(({ rule, status }) => status === 'open' && rankOf(rule.name) < limit);
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

/** Of all the parts of a model, what is to be said of the plate; any other name as it is. */
const platedIn = (unit: Unit): ((rule: NameRule) => NameRule) => {
  const stateFor = plateIn(unit);
  return (rule) => {
    if (rule.name.rung !== 'all parts') return rule;
    const said = stateFor(rule.name.models[0] as ModelId);
    if (said === null) return rule;
    const ways = platedRules.get(rule) ?? new Map<string, NameRule>();
    platedRules.set(rule, ways);
    let plated = ways.get(said);
    if (plated === undefined) {
      plated = { ...rule, name: { ...rule.name, text: `${rule.name.text}, nameplate ${said}` } };
      ways.set(said, plated);
    }
    return plated;
  };
};

/** What may be said of a plate is one of four things, and there is a name for each. */
const platedRules = new WeakMap<NameRule, Map<string, NameRule>>();

/** Parts of a family, of no one model: said of a maker's family all whose models are ruled out, whatever the plate. */
const familyPartsOf = (unit: Unit, judge: (rule: NameRule) => Judged): NameRule[] => {
  const names = holdFamilyParts(unit);
  return names
    .unblocked()
    .map((name) => names.rules[name] as NameRule)
    .filter(
      (rule) =>
        familyPartsNamed(unit.atlas, rule.name.id)?.noneOf.every((each) => judge(each).status === 'ruled out') &&
        judge(rule).status !== 'ruled out',
    );
};

/** By model what is to be said of the plate; null where every candidate is a plate of the model. */
const plateIn = (unit: Unit): ((model: ModelId) => 'missing' | 'of another' | 'not confirmed' | 'not yet looked at' | null) => {
  const { atlas } = unit;
  const plate = unit.slots.find(({ of }) => of.data.group === 'plate');
  if (plate === undefined) return () => null;
  if (plate.absent) return () => 'missing';
  if (plate.observations.length === 0) return () => 'not yet looked at';
  // No listed plate may be like this one in all, and its number still be that of others' plates (O5).
  const numbered = plate.live.length > 0 || plate.unlisted !== null ? [] : platesNumbered(atlas, plate);
  return (model) => {
    const rule = ruleNamed(atlas, serviceNameId(model));
    const demand = rule?.demands[plate.of.number] ?? null;
    const { all, some } = liveWithin(plate, demand);
    if (all) return null;
    if (plate.unlisted !== null && rule !== undefined) return some || mayBeOf(plate.unlisted, rule) ? 'not confirmed' : 'of another';
    if (plate.live.length > 0) return some ? 'not confirmed' : 'of another';
    return numbered.length === 0 || numbered.some((part) => demand?.has(part)) ? 'not confirmed' : 'of another';
  };
};

/** Listed plates by the numbers read of this one, by their place in the slot. */
const platesNumbered = (atlas: CompiledAtlas, { of, observations }: UnitSlot): number[] =>
  observations.flatMap(({ feature, value }) =>
    value.kind === 'mark' && value.text !== null && atlas.features.get(feature)?.says === 'part number'
      ? partsNumbered(atlas, value.text).flatMap(({ id }) => of.partNumber.get(id) ?? [])
      : [],
  );

interface Origin {
  readonly slot: number;
  readonly origin: HousingOrigin;
  readonly list: HousingList;
  readonly within: { readonly all: boolean; readonly some: boolean };
}

const isOwn = (origin: Origin | null): origin is Origin & { readonly origin: { readonly kind: 'own' } } => origin?.origin.kind === 'own';

/** That a housing slot holds one of the core's own; nothing where no live housing is one. */
const ownOrigin = (unit: Unit, core: NameRule, slot: number): Origin[] =>
  originIn(unit, slot, { kind: 'own' }, ownHousings(unit.atlas, core.name.models, slot));

/** What models list in a housing slot, together: nothing, and open-ended, where they are silent. */
export const ownHousings = (atlas: CompiledAtlas, models: readonly ModelId[], slot: number): HousingList => {
  const own = models.flatMap((model) => atlas.housings.ofModel.get(model)?.[slot] ?? []);
  return { parts: union(own.map(({ parts }) => parts)), open: own.some(({ open }) => open) };
};

/** The families a live housing of the slot may be of: the same for every core. */
const familyOrigins = (unit: Unit, slot: number): Origin[] =>
  familiesHeld(unit, slot).flatMap(([family, list]) => originIn(unit, slot, { kind: 'family', family }, list));

/** The families that list a housing left in the slot, in the order of the atlas. */
const familiesHeld = (unit: Unit, slot: number): (readonly [FamilyId, HousingList])[] => {
  const { families, ofPart } = housingsOfFamilies(unit.atlas, slot);
  const found = new Set<number>();
  for (const part of partsIn(unit.slots[slot] as UnitSlot)) {
    for (let at = ofPart.first[part] as number; at < (ofPart.first[part + 1] as number); at += 1) found.add(ofPart.of[at] as number);
  }
  return [...found].sort((a, b) => a - b).map((family) => families[family] as readonly [FamilyId, HousingList]);
};

interface FamilyHousings {
  readonly families: readonly (readonly [FamilyId, HousingList])[];
  /** By part of the slot, which of the families list it. */
  readonly ofPart: Lists;
}

const familyHousings = new WeakMap<CompiledAtlas['housings'], Map<number, FamilyHousings>>();

const housingsOfFamilies = ({ housings, slots }: CompiledAtlas, slot: number): FamilyHousings => {
  const bySlot = familyHousings.get(housings) ?? new Map<number, FamilyHousings>();
  familyHousings.set(housings, bySlot);
  let known = bySlot.get(slot);
  if (known === undefined) {
    const families = [...housings.ofFamily].flatMap(([family, lists]) => {
      const list = lists[slot] ?? null;
      return list === null ? [] : [[family, list] as const];
    });
    const ofPart = listsOf(slotAt({ slots }, slot).parts.length, (say) => {
      for (const [number, [, { parts }]] of families.entries()) for (const part of parts) say(part, number);
    });
    known = { families, ofPart };
    bySlot.set(slot, known);
  }
  return known;
};

/** The same seen from one core: a family of its own models is its own family. */
const inFamilies = (unit: Unit, core: NameRule, origins: readonly Origin[]): Origin[] =>
  origins.map((each) => ({ ...each, origin: seenFrom(unit, core.name.models, each.origin) }));

const seenFrom = (unit: Unit, models: readonly ModelId[], origin: HousingOrigin): HousingOrigin => {
  if (origin.kind !== 'family' && origin.kind !== 'own family') return origin;
  const own = models.some((model) => unit.atlas.models.get(model)?.family === origin.family);
  return { kind: own ? 'own family' : 'family', family: origin.family };
};

const originIn = (unit: Unit, slot: number, origin: HousingOrigin, list: HousingList): Origin[] => {
  const within = liveWithin(unit.slots[slot] as UnitSlot, list.parts);
  return within.some ? [{ slot, origin, list, within }] : [];
};

/**
 * The core with the housings chosen. Housings called its own are of one and the same model, so of a core of several there is a name for each, and what is of its own family is seen from
 * that model.
 */
const withHousings = (unit: Unit, core: NameRule, chosen: readonly (Origin | null)[]): NameRule[] => {
  return ownersOf(core.name.models, chosen.filter(isOwn).length).map((ownOf) =>
    housed(
      unit,
      core,
      ownOf === null
        ? chosen
        : chosen.map((each) => {
            if (isOwn(each)) return { ...each, list: ownHousings(unit.atlas, [ownOf], each.slot) };
            return each === null ? null : { ...each, origin: seenFrom(unit, [ownOf], each.origin) };
          }),
      ownOf,
    ),
  );
};

/** Whose own so many housings of a core are: where that is one housing, or the core is one model's, it need not be said. */
export const ownersOf = (models: readonly ModelId[], own: number): readonly (ModelId | null)[] =>
  own < 2 || models.length < 2 ? [null] : models;

const housed = (unit: Unit, core: NameRule, chosen: readonly (Origin | null)[], ownOf: ModelId | null): NameRule => {
  const housings = housingSlots(unit.atlas).map(({ data: slot }, i) => ({
    slot: slot.id,
    origin: chosen[i]?.origin ?? ({ kind: 'unidentified' } as const),
  }));
  const rung: Rung = chosen.some((each) => each === null) ? 'core' : 'hybrid';
  const listed = new Map(chosen.flatMap((each) => (each === null ? [] : [[each.slot, each.list] as const])));
  return {
    ...core,
    name: {
      ...core.name,
      id: formedNameId(core.name.id, ownOf, housings),
      models: ownOf === null ? core.name.models : [ownOf],
      rung,
      housings,
      text: hybridText(unit, ownOf === null ? core.name.models : [ownOf], housings),
    },
    demands: core.demands.map((demand, slot) => listed.get(slot)?.parts ?? demand),
    open: new Map([...core.open, ...[...listed].flatMap(([slot, { open }]) => (open ? [[slot, new Set<number>()] as const] : []))]),
  };
};

const hybridText = (unit: Unit, models: readonly ModelId[], housings: Name['housings']): string => {
  const { atlas } = unit;
  const of = fullNames(
    atlas,
    models.map((model) => atlas.models.get(model) as Model),
  );
  const nameOf = (slot: string): string => slotNameOf(atlas, slot);
  const phrase = ({ slot, origin }: Name['housings'][number]): string => {
    switch (origin.kind) {
      case 'own':
        return `its own ${nameOf(slot)}`;
      case 'own family':
        return `another ${familyName(atlas, atlas.families.get(origin.family) as Family)} ${nameOf(slot)}`;
      case 'family':
        return `${withArticle(nameOf(slot))} of ${familyName(atlas, atlas.families.get(origin.family) as Family)}`;
      case 'unidentified':
        return `an unidentified ${nameOf(slot)}`;
    }
  };
  return `core of ${of} with ${housings.map(phrase).join(' and ')}`;
};

/** The name with this id, compiled or formed for a unit; undefined when there is none. */
export const findRule = (unit: Unit, id: NameId): NameRule | undefined => {
  const compiled = ruleNamed(unit.atlas, id);
  if (compiled) return platedIn(unit)(compiled);
  if (isFamilyPartsNameId(id)) {
    return familyPartsOf(unit, judgeFor(unit)).find(({ name }) => name.id === id);
  }
  const formed = readFormedNameId(id);
  const core = ruleNamed(unit.atlas, formed.core);
  if (core?.name.rung !== 'core') return undefined;
  const within = { all: false, some: false };
  const chosen = housingSlots(unit.atlas).map(({ data: slot, number }): Origin | null | undefined => {
    const said = formed.housings.get(slot.id);
    if (said === undefined) return undefined;
    if (said === 'unidentified') return null;
    if (said === 'own') return { slot: number, origin: { kind: 'own' }, list: ownHousings(unit.atlas, core.name.models, number), within };
    const list = unit.atlas.housings.ofFamily.get(said)?.[number];
    return list ? { slot: number, origin: seenFrom(unit, core.name.models, { kind: 'family', family: said }), list, within } : undefined;
  });
  if (chosen.some((each) => each === undefined)) return undefined;
  return withHousings(unit, core, chosen as (Origin | null)[]).find(({ name }) => name.id === id);
};
