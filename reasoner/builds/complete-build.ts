import type { Part } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledJoint } from '../compile/compiled.ts';
import { familyPartsNamed } from '../compile/name-ids.ts';
import { judgeChain } from '../fits/chain.ts';
import type { FitVerdict } from '../fits/fit.ts';
import type { InHand } from '../fits/judge-joint.ts';
import type { WorkedFit } from '../fits/work/work.ts';
import type { SlotId } from '../ids.ts';
import { findRule } from '../names/ladder.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { disagreementsIn, inHandOf } from '../unit/in-hand.ts';
import { contradictionsIn } from '../verdict/answer.ts';
import { chainsAmong, factsOfBuild } from './chains-of.ts';
import { choicesOfParts, type Ground, type PartClass } from './choices-of-parts.ts';
import type { BuildConstraints, CompletedBuild, Completion, CompletionProgress } from './completion.ts';
import { inPence, pricesIn } from './cost.ts';
import { firstOf, type NameRanks, nameRanksOf } from './name-ranks.ts';
import { type MayLeave, Pairs } from './pairs.ts';
import { plannedUnit } from './planned-unit.ts';
import { jointsAmong, type Planner, plannerFor, type WorkSet, workSets } from './work-sets.ts';

export interface CompleteOptions {
  /** More builds than this are not listed; 200 where not said. */
  readonly limit?: number;
  /** More choices than this are not looked at. */
  readonly choices?: number;
  /** Choices between two reports; 2000 where not said. */
  readonly stride?: number;
}

/**
 * All builds that fill every slot of a start within the constraints and that no other beats in hours, cost, operations, name and what is left
 * open together. Branch and bound over classes of parts that nothing tells apart; exact, and it says so when it had to stop.
 * A generator, so that its host may do other things between two reports: `next(true)` stops it.
 * @throws on a contradictory sheet, or constraints that speak of what the atlas does not have; the door refuses those
 */
export function* completions(
  atlas: CompiledAtlas,
  sheet: Sheet,
  constraints: BuildConstraints = {},
  options: CompleteOptions = {},
): Generator<CompletionProgress, Completion, boolean | undefined> {
  if (contradictionsIn(atlas, sheet)) throw new Error('a contradictory sheet cannot be completed');
  const search = new Search(atlas, sheet, constraints);
  const { limit = 200, choices = Number.POSITIVE_INFINITY, stride = 2000 } = options;
  let stopped: Completion['stopped'] = null;
  let next = stride;
  for (const share of search.run()) {
    if (search.looked >= choices) {
      stopped = 'too many choices';
      break;
    }
    if (search.looked < next) continue;
    next = search.looked + stride;
    if ((yield { looked: search.looked, share, found: search.front.length }) === true) {
      stopped = 'cancelled';
      break;
    }
  }
  const builds = search.built();
  if (stopped === null && builds.length > limit) stopped = 'too many builds';
  return { builds: builds.slice(0, limit), complete: stopped === null, stopped, looked: search.looked, empty: search.empty };
}

export interface CompleteHost extends CompleteOptions {
  readonly onProgress?: (progress: CompletionProgress) => void;
  readonly isCancelled?: () => boolean;
}

/** `completions` run to its end, or until it is cancelled. */
export const completeBuild = (
  atlas: CompiledAtlas,
  sheet: Sheet,
  constraints: BuildConstraints = {},
  host: CompleteHost = {},
): Completion => {
  const running = completions(atlas, sheet, constraints, host);
  let step = running.next();
  while (!step.done) {
    host.onProgress?.(step.value);
    step = running.next(host.isCancelled?.() === true);
  }
  return step.value;
};

/** What builds are weighed by; smaller is better in each. Money is compared by known prices and by which parts have none. */
interface Worth {
  readonly hours: number;
  readonly money: number;
  readonly unpriced: ReadonlySet<string>;
  readonly works: number;
  readonly rank: number;
  readonly open: number;
}

interface Found extends Worth {
  readonly chosen: readonly (PartClass | null)[];
  readonly set: WorkSet;
  readonly place: number;
}

/** What a slot may still hold, with what its parts come to together: each name some part leaves, and the least price. */
interface Domain {
  readonly classes: readonly PartClass[];
  readonly names: Uint32Array;
  readonly least: number;
}

const domainOf = (classes: readonly PartClass[], words: number): Domain => {
  const [first] = classes;
  const names = classes.length === 1 && first !== undefined ? first.names : new Uint32Array(words);
  if (classes.length > 1) for (const each of classes) add(names, each.names);
  return { classes, names, least: classes.reduce((least, { price }) => Math.min(least, price), Number.POSITIVE_INFINITY) };
};

class Search {
  readonly front: Found[] = [];
  readonly empty: readonly SlotId[];
  looked = 0;
  readonly #atlas: CompiledAtlas;
  readonly #inHand: InHand;
  readonly #names: NameRanks;
  readonly #ground: Ground;
  readonly #strangers: ReadonlySet<SlotId>;
  readonly #domains: readonly (readonly PartClass[] | null)[];
  readonly #plan: Planner;
  readonly #most: number;
  readonly #mayLeave: MayLeave;
  readonly #hourly: number;
  readonly #jointsOf: readonly (readonly CompiledJoint[])[];
  readonly #pairs: Pairs;
  readonly #worked = new Map<string, Map<Part, Map<Part, WorkedFit>>>();

  constructor(atlas: CompiledAtlas, sheet: Sheet, constraints: BuildConstraints) {
    this.#atlas = atlas;
    this.#inHand = inHandOf(sheet);
    this.#names = nameRanksOf(atlas);
    this.#strangers = new Set(disagreementsIn(atlas, sheet).map(({ slot }) => slot));
    const prices = pricesIn(atlas, constraints.rates);
    const unit = plannedUnit(atlas, sheet, this.#strangers);
    const keep = constraints.keep === undefined ? null : findRule(unit, constraints.keep);
    if (keep === undefined) throw new Error(`no name has the id ${constraints.keep}`);
    this.#ground = { atlas, sheet, constraints, prices, names: this.#names, keep: keep?.demands ?? null };
    this.#domains = choicesOfParts(this.#ground);
    this.empty = atlas.slots.flatMap(({ data: slot, number }) =>
      this.#domains[number]?.length === 0 || (this.#domains[number] === null && (keep?.demands[number] ?? null) !== null) ? [slot.id] : [],
    );
    this.#most = constraints.atMost ?? Number.POSITIVE_INFINITY;
    this.#mayLeave = constraints.mayLeave ?? 'nothing';
    this.#hourly = prices.rates?.hour ?? 0;
    this.#jointsOf = atlas.slots.map(({ number }) => atlas.joints.filter(({ a, b }) => a === number || b === number));
    const planner = plannerFor(atlas.data.operations ?? [], Math.min(3, this.#most));
    this.#plan = (joint, facts) => {
      if (facts !== this.#inHand) return planner(joint, facts);
      const byA = at(at(this.#worked, joint.joint.id), joint.a);
      let known = byA.get(joint.b);
      if (known === undefined) {
        known = planner(joint, facts);
        byA.set(joint.b, known);
      }
      return known;
    };
    this.#pairs = new Pairs(atlas, this.#inHand, this.#plan, Math.min(3, this.#most), this.#mayLeave);
  }

  /** Yields the share of the choices done after each choice looked at. */
  *run(): Generator<number, void, undefined> {
    if (this.empty.length > 0) return;
    yield* this.#fill(
      this.#domains.map((classes) => domainOf(classes ?? [], this.#names.words)),
      this.#domains.map((classes) => (classes === null ? null : undefined)),
      { hours: 0, works: 0 },
      0,
      1,
    );
  }

  *#fill(
    domains: readonly Domain[],
    chosen: readonly (PartClass | null | undefined)[],
    spent: { readonly hours: number; readonly works: number },
    from: number,
    width: number,
  ): Generator<number, void, undefined> {
    const slot = this.#nextSlot(domains, chosen);
    if (slot === null) {
      this.#weigh(chosen as readonly (PartClass | null)[]);
      yield from + width;
      return;
    }
    const values = (domains[slot] as Domain).classes;
    const each = width / values.length;
    for (const [i, value] of values.entries()) {
      this.looked += 1;
      const here = from + i * each;
      const taken = chosen.map((known, s) => (s === slot ? value : known));
      const next = this.#narrow(domains, taken, slot, value, spent);
      if (next !== null && !this.#isBeaten(this.#bound(next.domains, taken, next.spent))) {
        yield* this.#fill(next.domains, taken, next.spent, here, each);
      } else yield here + each;
    }
  }

  /** The slot with fewest classes left, so that what cannot be shows early; one that meets what is chosen already before others. */
  #nextSlot(domains: readonly Domain[], chosen: readonly (PartClass | null | undefined)[]): number | null {
    let best: number | null = null;
    let least = Number.POSITIVE_INFINITY;
    domains.forEach(({ classes }, slot) => {
      if (chosen[slot] !== undefined) return;
      const meets = (this.#jointsOf[slot] ?? []).some(({ a, b }) => chosen[a === slot ? b : a] != null);
      const weight = classes.length + (meets || classes.length === 1 ? 0 : 1e6);
      if (weight < least) [best, least] = [slot, weight];
    });
    return best;
  }

  /** The domains once a slot has its part, with the hours and works its joints take at least; null where something cannot be any more. */
  #narrow(
    domains: readonly Domain[],
    chosen: readonly (PartClass | null | undefined)[],
    slot: number,
    value: PartClass,
    spent: { readonly hours: number; readonly works: number },
  ): { readonly domains: readonly Domain[]; readonly spent: { readonly hours: number; readonly works: number } } | null {
    const next = [...domains];
    next[slot] = { classes: [value], names: value.names, least: value.price };
    let { hours, works } = spent;
    for (const joint of this.#jointsOf[slot] ?? []) {
      const other = joint.a === slot ? joint.b : joint.a;
      const there = chosen[other];
      if (there === null) continue;
      const pairWith = this.#pairs.with(joint, slot, value.part);
      if (there !== undefined) {
        const pair = pairWith(there.part);
        if (!pair.holds) return null;
        hours += pair.hours;
        works += pair.works;
        continue;
      }
      const { classes } = next[other] as Domain;
      const left = classes.filter(({ part }) => pairWith(part).holds);
      if (left.length === 0) return null;
      if (left.length < classes.length) next[other] = domainOf(left, this.#names.words);
    }
    return works > this.#most ? null : { domains: next, spent: { hours, works } };
  }

  /** What any build from here on is worth at best. */
  #bound(
    domains: readonly Domain[],
    chosen: readonly (PartClass | null | undefined)[],
    { hours, works }: { readonly hours: number; readonly works: number },
  ): Worth {
    const row = new Uint32Array(this.#names.words).fill(0xffffffff);
    const unpriced = new Set<string>();
    let money = hours * this.#hourly;
    domains.forEach(({ names, least }, slot) => {
      const here = chosen[slot];
      overlay(row, here === null || this.#isStranger(slot) ? this.#rowWithout(slot) : names);
      if (here === null) return;
      money += least;
      if (here?.unpriced) unpriced.add(here.part.id);
    });
    return { hours, money, unpriced, works, rank: this.#names.ranks[firstOf(row)] as number, open: 0 };
  }

  /** Whether some build found already beats whatever is worth this: as good in everything, and better in something. */
  #isBeaten(worth: Worth): boolean {
    return this.front.some((found) => atLeast(found, worth) && !atLeast(worth, found));
  }

  /** A whole build: its works, chains and name, and its place among those found. */
  #weigh(chosen: readonly (PartClass | null)[]): void {
    const atlas = this.#atlas;
    const partIn = (slot: SlotId): Part | undefined => chosen[atlas.slotNumber.get(slot) as number]?.part;
    const stacks = chainsAmong(atlas, partIn);
    const chainsWith = (facts: InHand): FitVerdict[] =>
      stacks.map((chain) => judgeChain(chain, factsOfBuild(atlas, partIn, facts)).verdict);
    const row = new Uint32Array(this.#names.words).fill(0xffffffff);
    chosen.forEach((each, slot) => {
      overlay(row, each === null || this.#isStranger(slot) ? this.#rowWithout(slot) : each.names);
    });
    const place = this.#names.bestOf(row);
    const parts = chosen.flatMap((each) => each ?? []);
    const price = parts.reduce((sum, each) => sum + each.price, 0);
    const unpriced = new Set(parts.flatMap((each) => (each.unpriced ? [each.part.id as string] : [])));
    for (const set of workSets(jointsAmong(atlas, partIn), this.#inHand, this.#plan, { most: this.#most, chainsWith })) {
      if (set.failing > 0 || (set.unknown > 0 && this.#mayLeave !== 'unknowns') || (set.choosing > 0 && this.#mayLeave === 'nothing'))
        continue;
      const worth: Worth = {
        hours: set.hours,
        money: price + set.hours * this.#hourly,
        unpriced,
        works: set.works.length,
        rank: this.#names.ranks[place] as number,
        open: set.unknown + set.choosing,
      };
      if (this.#isBeaten(worth)) continue;
      for (let i = this.front.length - 1; i >= 0; i -= 1) {
        const found = this.front[i] as Found;
        if (atLeast(worth, found) && !atLeast(found, worth)) this.front.splice(i, 1);
      }
      this.front.push({ ...worth, chosen, set, place });
    }
  }

  /** The row of a slot without a listed part. */
  #rowWithout(slot: number): Uint32Array {
    const id = this.#atlas.slots[slot]?.data.id as SlotId;
    if (this.#ground.sheet.absent.includes(id)) return this.#names.rowOf(slot, 'nothing');
    return this.#names.rowOf(slot, this.#isStranger(slot) ? 'a stranger' : 'not chosen');
  }

  #isStranger(slot: number): boolean {
    return this.#strangers.has(this.#atlas.slots[slot]?.data.id as SlotId);
  }

  /** The builds found, best name first, then by money, hours and number of works. */
  built(): CompletedBuild[] {
    const unit = plannedUnit(this.#atlas, this.#ground.sheet, this.#strangers);
    const texts = new Map<string, string>();
    const textOf = (id: CompletedBuild['names'][number]['id']): string => {
      // Parts of a family, of no one model, are a name of the finished build alone: the one it begins with may still be of a model.
      const known = texts.get(id) ?? (familyPartsNamed(this.#atlas, id)?.rule ?? findRule(unit, id))?.name.text ?? id;
      texts.set(id, known);
      return known;
    };
    return [...this.front]
      .sort(
        (a, b) =>
          a.rank - b.rank ||
          a.money - b.money ||
          a.hours - b.hours ||
          a.works - b.works ||
          a.open - b.open ||
          foundKey(a).localeCompare(foundKey(b)),
      )
      .map(({ chosen, set, rank, money, unpriced, open }) => ({
        chosen: Object.fromEntries(
          this.#atlas.slots.flatMap(({ data: slot, number }) => (chosen[number] ? [[slot.id, chosen[number].part.id]] : [])),
        ),
        works: set.works.map(({ operation, part, joint }) => ({ operation, part, joint })),
        hours: set.hours,
        cost: this.#ground.prices.rates === null ? null : inPence(money),
        unpriced: chosen.flatMap((each) => (each !== null && unpriced.has(each.part.id) ? [each.part.id] : [])),
        operations: set.works.length,
        open,
        names: this.#honest(chosen).map((id) => ({ id, text: textOf(id) })),
        rank,
        alike: this.#atlas.slots.flatMap(({ data: slot, number }) => {
          const others = chosen[number]?.alike.slice(1) ?? [];
          return others.length === 0 ? [] : [{ slot: slot.id, parts: others }];
        }),
      }));
  }

  /** Every name of the best rank that stands. */
  #honest(chosen: readonly (PartClass | null)[]): CompletedBuild['names'][number]['id'][] {
    const row = new Uint32Array(this.#names.words).fill(0xffffffff);
    chosen.forEach((each, slot) => {
      overlay(row, each === null || this.#isStranger(slot) ? this.#rowWithout(slot) : each.names);
    });
    const first = this.#names.bestOf(row);
    const numberIn = (slot: number): number | null => {
      const id = chosen[slot]?.part.id;
      return id === undefined ? null : (this.#atlas.slots[slot]?.partNumber.get(id) ?? null);
    };
    const names: CompletedBuild['names'][number]['id'][] = [];
    for (let place = first; this.#names.ranks[place] === this.#names.ranks[first]; place += 1) {
      if (this.#names.standsAt(row, place)) names.push(...this.#names.namesAt(place, numberIn));
    }
    return names;
  }
}

const foundKey = ({ chosen, set }: Found): string =>
  `${chosen.map((each) => each?.part.id ?? '').join()} ${set.works.map(({ operation }) => operation).join()}`;

/** Keeps the bits the other row has too. */
const overlay = (row: Uint32Array, other: Uint32Array): void => {
  for (let word = 0; word < row.length; word += 1) row[word] = (row[word] as number) & (other[word] as number);
};

/** Adds the bits of the other row. */
const add = (row: Uint32Array, other: Uint32Array): void => {
  for (let word = 0; word < row.length; word += 1) row[word] = (row[word] as number) | (other[word] as number);
};

/** As good in everything. Of two sums of prices one is surely no more than the other when its unknown prices are among the other's. */
const atLeast = (one: Worth, other: Worth): boolean =>
  one.hours <= other.hours + tiny &&
  one.money <= other.money + tiny &&
  one.works <= other.works &&
  one.rank <= other.rank &&
  one.open <= other.open &&
  [...one.unpriced].every((part) => other.unpriced.has(part));

/** Sums of hours and prices in another order differ by rounding. */
const tiny = 1e-9;

const at = <K, L, V>(map: Map<K, Map<L, V>>, key: K): Map<L, V> => {
  let inner = map.get(key);
  if (inner === undefined) {
    inner = new Map();
    map.set(key, inner);
  }
  return inner;
};
