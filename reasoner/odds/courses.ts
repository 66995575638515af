import type { HousingOrigin } from '../answer/verdict.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { demandsCore, type NameRule, notBarred } from '../compile/name-rule.ts';
import type { FeatureId, SlotId } from '../ids.ts';
import type { Judged } from '../names/demand-table.ts';
import { honestOf } from '../names/ladder.ts';
import { rankOf } from '../names/rank.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { classOf, partsIn } from '../unit/groups.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import { choiceExists } from '../unit/within.ts';
import { claimedNames, claimOf } from '../verdict/claim.ts';
import type { Telling } from './tell-apart.ts';

/** What is known of a unit, and what the checks not made yet could tell. */
export interface Asked {
  readonly atlas: CompiledAtlas;
  readonly sheet: Sheet;
  readonly unit: Unit;
  /** The names not ruled out, best first. */
  readonly possible: readonly Judged[];
  /** By slot, what the checks not made yet could tell; the checks in the odds' order. */
  readonly telling: readonly Telling[];
  readonly rank: ReadonlyMap<FeatureId, number>;
}

/** Readings that might change what is said. */
export interface Course {
  readonly readings: readonly Observation[];
  /** Whether, where the verdict stays as it is with them, nothing is left to be tried. */
  readonly settles: boolean;
}

/** So many ways to read one name into standing are tried, before it is left open whether there is one. */
const attempts = 3;

/** Readings of the checks not made yet that might change the honest name or the claim: enough of them that, where none does, nothing can; or it is said that they do not settle it. */
export function* coursesOf(asked: Asked): Generator<Course> {
  for (const rule of couldMatter(asked)) {
    const sets = couldStand(asked, rule);
    if (sets !== null) yield* readInto(asked, sets, (slot, part) => rule.demands[slot]?.has(part) === false);
  }
  for (const rule of openClaims(asked)) for (const fall of couldFall(asked, rule)) yield* readAgainst(asked, fall);
  for (const fall of fallsOfFamilies(asked)) yield* readAgainst(asked, fall);
  yield* singleReadings(asked);
}

/** Names whose standing would be news: open ones no worse than the honest name, and cores with whatever housings may be made out. */
function* couldMatter(asked: Asked): Generator<NameRule> {
  const { possible } = asked;
  const [best] = honestOf({ possible }) as [Judged, ...Judged[]];
  const limit = rankOf(best.rule.name);
  for (const { rule, status } of possible) if (status === 'open' && rankOf(rule.name) <= limit) yield rule;
  for (const { rule } of possible) if (rule.name.rung === 'core' && isCompiled(rule)) yield* housedWays(asked, rule, limit);
}

/** A core as the atlas has it, its housings not said. */
const isCompiled = ({ name }: NameRule): boolean => name.housings.every(({ origin }) => origin.kind === 'unidentified');

/** The core with what its housings may come to be known as, where that would be no worse than the honest name: each its own models’, a family’s, or unidentified. */
function* housedWays({ atlas, unit }: Asked, core: NameRule, limit: number): Generator<NameRule> {
  const ways = core.name.housings.map(({ slot }): Housed[] => {
    const number = atlas.slotNumber.get(slot) as number;
    const live = partsIn(unit.slots[number] as UnitSlot);
    const from = (origin: HousingOrigin, parts: ReadonlySet<number> | undefined): Housed[] =>
      parts !== undefined && live.some((part) => parts.has(part)) ? [{ slot, number, origin, parts }] : [];
    return [
      ...core.name.models.flatMap((model) => from({ kind: 'own' }, atlas.housings.ofModel.get(model)?.[number]?.parts)),
      ...[...atlas.housings.ofFamily].flatMap(([family, lists]) => {
        const own = core.name.models.some((model) => atlas.models.get(model)?.family === family);
        return from({ kind: own ? 'own family' : 'family', family }, lists[number]?.parts);
      }),
      { slot, number, origin: { kind: 'unidentified' }, parts: null },
    ];
  });
  for (const chosen of everyWay(ways)) {
    const kinds = chosen.map(({ origin }) => origin.kind);
    if (kinds.every((kind) => kind === 'own') || kinds.every((kind) => kind === 'unidentified')) continue;
    const rung = kinds.includes('unidentified') ? 'core' : 'hybrid';
    const name = { ...core.name, rung, housings: chosen.map(({ slot, origin }) => ({ slot, origin })) } as const;
    if (rankOf(name) > limit) continue;
    yield { ...core, name, demands: core.demands.map((demand, at) => chosen.find(({ number }) => number === at)?.parts ?? demand) };
  }
}

interface Housed {
  readonly slot: SlotId;
  readonly number: number;
  readonly origin: HousingOrigin;
  /** Null: any. */
  readonly parts: ReadonlySet<number> | null;
}

const everyWay = <T>(lists: readonly (readonly T[])[]): T[][] =>
  lists.reduce<T[][]>((all, list) => all.flatMap((head) => list.map((each) => [...head, each])), [[]]);

/** Whether the checks, or what they tell of its neighbours, could leave one part of a slot and not the other. */
const apart = ({ unit, telling }: Asked, slot: number, part: number, other: number): boolean =>
  (telling[slot] as Telling).apart(part, other) ||
  classOf(unit.slots[slot] as UnitSlot, part) !== classOf(unit.slots[slot] as UnitSlot, other);

/** By slot the name demands, the remaining parts that belong and could be told from all that do not; null for a slot it does not care for. Null where it can never stand, or nothing is left to tell. */
const couldStand = (asked: Asked, rule: NameRule, settled = false): (readonly number[] | null)[] | null => {
  if (!demandsCore(asked.atlas, rule)) return null;
  const sets: (readonly number[] | null)[] = [];
  let told = settled;
  for (const [number, slot] of asked.unit.slots.entries()) {
    const demand = rule.demands[number] ?? null;
    if (demand === null) {
      sets.push(null);
      continue;
    }
    if (slot.doubtful || slot.absent) return null;
    const live = partsIn(slot);
    const others = live.filter((part) => !demand.has(part));
    const apartFromOthers = live.filter((part) => demand.has(part) && others.every((other) => apart(asked, number, part, other)));
    if (apartFromOthers.length === 0) return null;
    told ||= others.length > 0;
    sets.push(apartFromOthers);
  }
  return told ? sets : null;
};

const openClaims = ({ atlas, sheet, possible }: Asked): NameRule[] => {
  const claimed = new Set(claimedNames(atlas, sheet));
  return possible.filter(({ rule, status }) => status === 'open' && claimed.has(rule.name.id)).map(({ rule }) => rule);
};

/** Slots whose parts could rule the name out: those that remain, do not belong, and could be told from all that may. */
const couldFall = (asked: Asked, rule: NameRule): Fall[] =>
  asked.unit.slots.flatMap((slot, number) => {
    const allowed = notBarred(slot.of, rule);
    if (allowed === null || slot.doubtful || slot.absent) return [];
    const live = partsIn(slot);
    const kept = live.filter((part) => allowed.has(part));
    const parts = live.filter((part) => !allowed.has(part) && kept.every((other) => apart(asked, number, part, other)));
    return parts.length === 0 ? [] : [{ slot: number, parts, kept: new Set(kept) }];
  });

/** Ways to rule out the models of a family that are open, where parts of that family of no one model would then be said (N4). */
const fallsOfFamilies = (asked: Asked): Fall[] => {
  const { atlas, possible } = asked;
  const [best] = honestOf({ possible }) as [Judged, ...Judged[]];
  return atlas.familyParts.flatMap(({ rule, noneOf }) => {
    const open = possible.filter(({ rule: { name }, status }) => status === 'open' && noneOf.some((each) => each.name.id === name.id));
    if (open.length === 0 || rankOf(rule.name) >= rankOf(best.rule.name) || couldStand(asked, rule, true) === null) return [];
    const falls = open.map((each) => couldFall(asked, each.rule));
    return falls.every((each) => each.length > 0) ? (falls[0] as Fall[]) : [];
  });
};

/** Parts of one slot that could rule a name out, and those that could not. */
interface Fall {
  readonly slot: number;
  readonly parts: readonly number[];
  readonly kept: ReadonlySet<number>;
}

const readAgainst = (asked: Asked, { slot, parts, kept }: Fall): Generator<Course> =>
  readInto(
    asked,
    asked.unit.slots.map((_, at) => (at === slot ? parts : null)),
    (at, part) => at === slot && kept.has(part),
  );

/** Complete choices of remaining parts, of the given ones where they are given, each read by every check that leaves less of what is not wanted. */
function* readInto(
  asked: Asked,
  sets: readonly (readonly number[] | null)[],
  unwanted: (slot: number, part: number) => boolean,
): Generator<Course> {
  const tried = new Set<string>();
  for (let attempt = 0; attempt < attempts; attempt += 1) {
    const chosen = choiceWithin(asked, sets, attempt);
    if (chosen === null || tried.has(chosen.join())) return;
    tried.add(chosen.join());
    yield { readings: chosen.flatMap((part, slot) => (part === null ? [] : readingsOf(asked, slot, part, unwanted))), settles: false };
  }
}

/** One part for each slot that is not doubtful, all of which meet; null where there is no such choice. */
const choiceWithin = ({ unit }: Asked, sets: readonly (readonly number[] | null)[], attempt: number): (number | null)[] | null => {
  const free = unit.slots.map((slot, at) => (slot.doubtful ? null : (sets[at] ?? partsIn(slot))));
  const matings = free.map((parts, at) =>
    parts === null ? null : Int32Array.from(new Set(parts.map((part) => classOf(unit.slots[at] as UnitSlot, part)))),
  );
  if (!choiceExists(unit, matings)) return null;
  return free.map((parts, at) => {
    if (parts === null || parts.length === 0) return null;
    const turned = [...parts.slice(attempt % parts.length), ...parts.slice(0, attempt % parts.length)];
    const part = turned.find((each) => {
      const tried = [...matings];
      tried[at] = Int32Array.of(classOf(unit.slots[at] as UnitSlot, each));
      if (!choiceExists(unit, tried)) return false;
      matings[at] = tried[at];
      return true;
    });
    return part ?? null;
  });
};

/** What the checks of a slot would read of a part: first against what is not wanted there, then against all the rest. */
const readingsOf = (
  { unit, telling }: Asked,
  number: number,
  part: number,
  unwanted: (slot: number, part: number) => boolean,
): Observation[] => {
  const { features, sharpest } = telling[number] as Telling;
  const others = partsIn(unit.slots[number] as UnitSlot).filter((other) => other !== part);
  const first = others.filter((other) => unwanted(number, other));
  return features.flatMap((feature) => sharpest(feature, part, first) ?? sharpest(feature, part, others) ?? []);
};

/**
 * Readings tried one at a time: of the slots in doubt, where less than all that is seen can be true, so that more may be settled or less; and of what an unlisted claim promises.
 */
function* singleReadings({ unit, telling }: Asked): Generator<Course> {
  const claim = claimOf(unit, new Map());
  const tokens = claim === null ? [] : [claim, ...claim.others].flatMap(({ reading }) => reading.tokens);
  const promised = new Set(tokens.flatMap(({ promises }) => promises.map(({ feature }) => feature)));
  for (const [number, slot] of unit.slots.entries()) {
    const { features, readings } = telling[number] as Telling;
    const live = partsIn(slot);
    const left = new Set<string>();
    for (const feature of features) {
      // A promise is held against the reading itself, whatever parts that leaves.
      const isPromised = promised.has(feature.id);
      if (!slot.doubtful && !isPromised) continue;
      for (const { observation, leaves } of readings(feature, live)) {
        const key = leaves.join();
        if (!isPromised && (leaves.length === live.length || left.has(key))) continue;
        left.add(key);
        yield { readings: [observation], settles: true };
      }
    }
  }
}
