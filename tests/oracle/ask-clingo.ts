import type { PartId, SlotId } from '../../reasoner/index.ts';
import { type Atom, answerSets, minimalAnswerSets } from './clingo.ts';
import { partOfRow, partsOfRows } from './machined.ts';
import type { Demand, Question } from './reading.ts';

export type OracleStatus = 'ruled out' | 'open' | 'stands';

/** What clingo says of one unit. Sets are arrays of texts, sorted. */
export interface OracleAnswer {
  readonly doubtful: readonly SlotId[];
  /** Outside the doubtful slots the parts in some complete choice; in one, all that agree with what was observed there. */
  readonly candidates: ReadonlyMap<SlotId, readonly PartId[]>;
  readonly unitConflicts: readonly string[];
  /** In the order of the question's demands. */
  readonly demands: readonly {
    readonly status: OracleStatus;
    readonly conflicts: readonly string[];
    readonly swaps: readonly OracleSwap[];
  }[];
}

export interface OracleSwap {
  readonly slots: readonly SlotId[];
  readonly parts: ReadonlyMap<SlotId, readonly PartId[]>;
  readonly leaves: OracleStatus;
}

/** Which demands ruled out are to be explained; all of them unless said otherwise. */
export interface Wanted {
  readonly explain: (demand: Demand) => boolean;
}

/** Numbers for the ids of one question, and the facts of its atlas in those numbers. */
class Numbered {
  readonly question: Question;
  readonly parts: PartId[];
  readonly #partNumber: Map<PartId, number>;
  readonly #slotNumber: Map<SlotId, number>;

  constructor(question: Question) {
    this.question = question;
    this.parts = [...question.parts.values()].flat();
    this.#partNumber = new Map(this.parts.map((part, i) => [part, i]));
    this.#slotNumber = new Map(question.slots.map((slot, i) => [slot, i]));
  }

  slot(slot: SlotId): number {
    return this.#slotNumber.get(slot) as number;
  }

  part(part: PartId): number {
    return this.#partNumber.get(part) as number;
  }

  slotAt = (at: number | undefined): SlotId => this.question.slots[at as number] as SlotId;
  partAt = (at: number | undefined): PartId => this.parts[at as number] as PartId;

  /** part/2, obs/2, excl/2, absent/1, joint/3, fails/3. */
  facts(): string {
    const { question } = this;
    return [
      ...question.slots.flatMap((slot) => (question.parts.get(slot) ?? []).map((part) => `part(${this.slot(slot)},${this.part(part)}).`)),
      ...question.observations.map((observation, i) => `obs(${i},${this.slot(observation.slot)}).`),
      ...question.observations.flatMap((observation, i) => [...observation.excludes].map((part) => `excl(${i},${this.part(part)}).`)),
      ...[...question.absent].map((slot) => `absent(${this.slot(slot)}).`),
      ...question.joints.map((joint, i) => `joint(${i},${this.slot(joint.a)},${this.slot(joint.b)}).`),
      ...question.joints.flatMap((joint, i) => joint.fails.map(([p, q]) => `fails(${i},${this.part(p)},${this.part(q)}).`)),
      // Stated empty where there are none, so that clingo does not wonder about them.
      'obs(-1,-1). excl(-1,-1). absent(-1). joint(-1,-1,-1). fails(-1,-1,-1). demand(-1,-1). allow(-1,-1). openl(-1,-1). bar(-1,-1). silent(-1,-1).',
    ].join('\n');
  }

  /** inst/1, demand/2, allow/2 of the given demands; openl/2, bar/2, silent/2 where their lists are open-ended (A7). */
  demands(which: readonly number[]): string {
    return which
      .flatMap((i) => {
        const { allowed, open } = this.question.demands[i] as Demand;
        return [
          `inst(${i}).`,
          ...[...allowed].flatMap(([slot, parts]) => [
            `demand(${i},${this.slot(slot)}).`,
            ...[...parts].map((part) => `allow(${i},${this.part(part)}).`),
          ]),
          ...[...open].flatMap(([slot, parts]) => [
            `openl(${i},${this.slot(slot)}).`,
            ...[...parts].map((part) => `bar(${i},${this.part(part)}).`),
            ...(parts.size === 0 && allowed.get(slot)?.size === 0 ? [`silent(${i},${this.slot(slot)}).`] : []),
          ]),
        ];
      })
      .join('\n');
  }
}

export const askClingo = async (question: Question, wanted: Wanted = { explain: () => true }): Promise<OracleAnswer> => {
  const numbered = new Numbered(question);
  const found: Setting = new Map(
    question.slots.map((slot) => {
      const gone = question.observations.filter((observation) => observation.slot === slot).map(({ excludes }) => excludes);
      const parts = question.absent.has(slot) ? [] : (question.parts.get(slot) ?? []);
      return [slot, parts.filter((part) => !gone.some((excluded) => excluded.has(part)))];
    }),
  );
  const every = question.demands.map((_, demand) => ({ setting: 0, demand }));
  const [doubtful = []] = await doubtfulSlots(numbered, [found]);
  const { statuses, seats } = await judge(numbered, [found], [doubtful], every);
  const out = every.map(({ demand }) => demand).filter((i) => statuses[i] === 'ruled out' && wanted.explain(question.demands[i] as Demand));
  const several = question.several.filter(({ of }) => of.every((i) => out.includes(i)));
  const { unit, conflicts } = await conflictsOf(numbered, doubtful, out);
  const swaps = await swapsOf(numbered, found, doubtful, out);
  const shared = several.flatMap(({ own, of }) =>
    joinedSwaps(
      own,
      swaps.filter(({ demand }) => of.includes(demand)),
    ),
  );
  const everySwap = [...swaps.filter(({ demand }) => !several.some(({ own }) => own === demand)), ...shared];
  const leaves = await leavesOf(numbered, found, everySwap);
  return {
    doubtful,
    candidates: new Map(question.slots.map((slot) => [slot, (doubtful.includes(slot) ? found.get(slot) : seats.get(slot)) ?? []])),
    unitConflicts: unit,
    demands: question.demands.map((_, i) => ({
      status: ofSeveral(question, statuses, i),
      conflicts: joinedConflicts(several.find(({ own }) => own === i)?.of, conflicts) ?? conflicts.get(i) ?? [],
      swaps: everySwap.flatMap((swap, k) =>
        swap.demand === i ? [{ slots: swap.slots, parts: swap.parts, leaves: leaves[k] as OracleStatus }] : [],
      ),
    })),
  };
};

/** N4: a name that says only that the unit is one of several. */
const ofSeveral = ({ several }: Question, statuses: readonly OracleStatus[], i: number): OracleStatus => {
  const of = several.find(({ own }) => own === i)?.of.map((each) => statuses[each]);
  if (of === undefined) return statuses[i] as OracleStatus;
  if (of.every((status) => status === 'ruled out')) return 'ruled out';
  return statuses[i] === 'stands' || of.includes('stands') ? 'stands' : 'open';
};

/** Members that leave none of several a choice: from each of them a conflict, the fewest together. */
const joinedConflicts = (of: readonly number[] | undefined, conflicts: ReadonlyMap<number, readonly string[]>): string[] | null => {
  if (of === undefined) return null;
  const together = of
    .map((i) => (conflicts.get(i) ?? []).map((text) => text.split(', ')))
    .reduce<string[][]>((all, own) => least(all.flatMap((one) => own.map((other) => [...new Set([...one, ...other])]))), [[]]);
  return together.map((members) => members.sort().join(', ')).sort();
};

/** The sets that hold no other. */
const least = (sets: readonly string[][]): string[][] =>
  [...new Map(sets.map((set) => [[...set].sort().join(), set])).values()].filter(
    (set, _, all) => !all.some((other) => other.length < set.length && other.every((each) => set.includes(each))),
  );

/** What makes one of several possible makes the name possible. */
const joinedSwaps = (demand: number, swaps: readonly Swap[]): Swap[] =>
  least(swaps.map(({ slots }) => [...slots])).map((slots) => {
    const alike = swaps.filter((swap) => [...swap.slots].sort().join() === [...slots].sort().join());
    const put = (slot: SlotId) => [...new Set(alike.flatMap(({ parts }) => parts.get(slot) ?? []))];
    return { demand, slots: slots as SlotId[], parts: new Map((slots as SlotId[]).map((slot) => [slot, put(slot)])) };
  });

/** L(s) for every slot: of the unit as found, or after some parts were replaced. */
type Setting = ReadonlyMap<SlotId, readonly PartId[]>;

interface Swap extends Omit<OracleSwap, 'leaves'> {
  readonly demand: number;
}

const all = (found: readonly Atom[], name: string): readonly (readonly number[])[] =>
  found.filter((atom) => atom.name === name).map((atom) => atom.args);

const facts = (name: string, values: readonly number[]): string => values.map((value) => `${name}(${value}).`).join('\n');

/**
 * No choice meets the members taken in: guess the members, let `c` be any choice, and saturate it once it breaks one.
 * An answer set holds `bad` only when every choice is broken (Eiter & Gottlob 1995, saturation).
 */
const noChoiceLeft = `
bad :- need(S1), need(S2), in(3,J), joint(J,S1,S2), c(S1,P), c(S2,Q), fails(J,P,Q).
:- not bad.
#heuristic in(K,M) : member(K,M). [1,false]
#show in/2.`;

const listedIn = (numbered: Numbered, settings: readonly Setting[]): string =>
  settings
    .flatMap((setting, k) => [
      `setting(${k}).`,
      ...[...setting].flatMap(([slot, parts]) => parts.map((part) => `in_l(${k},${numbered.slot(slot)},${numbered.part(part)}).`)),
    ])
    .join('\n');

/** A7: what does not rule a name out in a slot, and slots that constrain it in nothing; a slot emptied and not filled again is missing. */
const openLists = `
may(I,S,P) :- demand(I,S), part(S,P), allow(I,P).
may(I,S,P) :- openl(I,S), part(S,P), not bar(I,P).
missing(K,S) :- setting(K), absent(S), not filled(K,S).
free(K,I,S) :- openl(I,S), doubtful(K,S), not missing(K,S).
free(K,I,S) :- openl(I,S), doubtful(K,S), silent(I,S).`;

/** W of every setting: the union of the minimal sets of slots in conflict with themselves. */
const doubtfulSlots = async (numbered: Numbered, settings: readonly Setting[]): Promise<SlotId[][]> => {
  if (settings.length === 0) return [];
  const program = `${numbered.facts()}
${listedIn(numbered, settings)}
in_l(-1,-1,-1).
1 { sel(K) : setting(K) } 1.
member(0,S) :- part(S,_).
{ in(0,S) : member(0,S) }.
need(S) :- in(0,S).
in(3,J) :- joint(J,_,_).
c(S,P) : part(S,P) :- need(S).
c(S,P) :- bad, need(S), part(S,P).
bad :- need(S), c(S,P), sel(K), not in_l(K,S,P).
${noChoiceLeft}
#heuristic sel(K) : setting(K). [1,false]
#show sel/1.`;
  const slots = settings.map(() => new Set<number>());
  for (const set of await minimalAnswerSets(program)) {
    for (const [kind, slot] of all(set, 'in')) if (kind === 0) slots[all(set, 'sel')[0]?.[0] as number]?.add(slot as number);
  }
  return slots.map((doubtful) => numbered.question.slots.filter((slot) => doubtful.has(numbered.slot(slot))));
};

/** N1–N3 of demands in settings, and the parts of complete choices outside W of the first setting. */
const judge = async (
  numbered: Numbered,
  settings: readonly Setting[],
  doubtful: readonly (readonly SlotId[])[],
  pairs: readonly { readonly setting: number; readonly demand: number }[],
  filled: readonly (readonly SlotId[])[] = [],
): Promise<{ statuses: OracleStatus[]; seats: Map<SlotId, PartId[]> }> => {
  const program = `${numbered.facts()}
${numbered.demands([...new Set(pairs.map(({ demand }) => demand))])}
${listedIn(numbered, settings)}
${doubtful.flatMap((slots, k) => slots.map((slot) => `doubtful(${k},${numbered.slot(slot)}).`)).join('\n')}
${pairs.map(({ setting, demand }) => `pair(${setting},${demand}).`).join('\n')}
in_l(-1,-1,-1). doubtful(-1,-1). filled(-1,-1).
${filled.flatMap((slots, k) => slots.map((slot) => `filled(${k},${numbered.slot(slot)}).`)).join('\n')}
${openLists}
1 { met(K,I) : pair(K,I); broken(K,I) : pair(K,I); seat(S,P) : in_l(0,S,P) } 1.
at(K,I) :- met(K,I). at(K,I) :- broken(K,I). at(0,-1) :- seat(_,_).
need(S) :- at(K,_), part(S,_), not doubtful(K,S).
need(S) :- met(K,I), demand(I,S), part(S,_), not free(K,I,S).
need(S) :- broken(_,I), demand(I,S), part(S,_).
1 { c(S,P) : part(S,P) } 1 :- need(S).
:- at(K,_), c(S,P), not in_l(K,S,P).
:- joint(J,S1,S2), c(S1,P), c(S2,Q), fails(J,P,Q).
:- met(_,I), demand(I,S), c(S,P), not may(I,S,P).
other :- broken(_,I), demand(I,S), c(S,P), not allow(I,P).
:- broken(_,_), not other.
:- seat(S,P), not c(S,P).
#show met/2. #show broken/2. #show seat/2.`;
  const found = await answerSets(program, ['--project=show']);
  const seats = new Map<SlotId, PartId[]>();
  for (const [slot, part] of found.flatMap((set) => all(set, 'seat'))) {
    seats.set(numbered.slotAt(slot), [...(seats.get(numbered.slotAt(slot)) ?? []), numbered.partAt(part)]);
  }
  const said = (name: string) => new Set(found.flatMap((set) => all(set, name).map((args) => args.join())));
  const [met, broken] = [said('met'), said('broken')];
  return {
    seats,
    statuses: pairs.map(({ setting, demand }): OracleStatus => {
      if (!met.has(`${setting},${demand}`)) return 'ruled out';
      const { allowed, mayStand } = numbered.question.demands[demand] as Demand;
      const uncertain = !mayStand || [...allowed.keys()].some((slot) => doubtful[setting]?.includes(slot));
      return broken.has(`${setting},${demand}`) || uncertain ? 'open' : 'stands';
    }),
  };
};

/** K1 for every demand ruled out, and the unit's own over the slots that hold something; members are 1 observation, 2 absence, 3 joint, 4 demand on a slot. */
const conflictsOf = async (numbered: Numbered, doubtful: readonly SlotId[], which: readonly number[]) => {
  const { question } = numbered;
  const program = `${numbered.facts()}
${numbered.demands(which)}
${facts(
  'doubtful',
  doubtful.map((slot) => numbered.slot(slot)),
)}
inst(unit). setting(0). in_l(-1,-1,-1). filled(-1,-1).
doubtful(0,S) :- doubtful(S).
${openLists}
1 { sel(I) : inst(I) } 1.
need(S) :- part(S,_), not doubtful(S).
need(S) :- part(S,_), sel(unit), not absent(S).
need(S) :- sel(I), demand(I,S), not free(0,I,S).
member(1,O) :- obs(O,_). member(2,S) :- absent(S). member(3,J) :- joint(J,_,_). member(4,S) :- part(S,_).
{ in(1,O) : obs(O,S), need(S); in(2,S) : absent(S), need(S); in(3,J) : joint(J,S1,S2), need(S1), need(S2) }.
{ in(4,S) : demand(I,S) } :- sel(I).
c(S,P) : part(S,P) :- need(S).
c(S,P) :- bad, need(S), part(S,P).
bad :- in(1,O), obs(O,S), c(S,P), excl(O,P).
bad :- in(2,S).
bad :- in(4,S), need(S), sel(I), demand(I,S), c(S,P), not may(I,S,P).
${noChoiceLeft}
#heuristic sel(I) : inst(I). [1,false]
#show sel/1.`;
  const named = ([kind, at]: readonly number[]): string => {
    switch (kind) {
      case 1:
        return `observation ${question.observations[at as number]?.id}`;
      case 2:
        return `absent ${numbered.slotAt(at)}`;
      case 3:
        return `joint ${question.joints[at as number]?.id}`;
      case 4:
        return `demand ${numbered.slotAt(at)}`;
      default:
        throw new Error(`no member of kind ${kind}`);
    }
  };
  const conflicts = new Map<number, string[]>();
  const unit: string[] = [];
  for (const set of await minimalAnswerSets(program)) {
    const members = all(set, 'in').map(named).sort().join(', ');
    const instance = all(set, 'sel')[0]?.[0] as number;
    // `unit` is a word, not a number.
    if (Number.isNaN(instance)) unit.push(members);
    else conflicts.set(instance, [...(conflicts.get(instance) ?? []), members]);
  }
  for (const list of conflicts.values()) list.sort();
  return { unit: unit.sort(), conflicts };
};

/** S1: minimal sets of slots whose observations and absence are set aside, and every part a choice that honours the name puts there. */
const swapsOf = async (numbered: Numbered, found: Setting, doubtful: readonly SlotId[], which: readonly number[]): Promise<Swap[]> => {
  if (which.length === 0) return [];
  const setting = `${numbered.facts()}
${numbered.demands(which)}
${listedIn(numbered, [found])}
in_l(-1,-1,-1).
${facts(
  'doubtful',
  doubtful.map((slot) => numbered.slot(slot)),
)}
filled(-1,-1).
doubtful(0,S) :- doubtful(S).
${openLists}
need(S) :- part(S,_), not doubtful(S).
need(S) :- sel(I), demand(I,S), part(S,_), not free(0,I,S).
1 { c(S,P) : part(S,P) } 1 :- need(S).
:- c(S,P), not in_l(0,S,P), not swap(S).
:- joint(J,S1,S2), c(S1,P), c(S2,Q), fails(J,P,Q).
:- sel(I), demand(I,S), c(S,P), not may(I,S,P).`;
  const minimal = await minimalAnswerSets(`${setting}
1 { sel(I) : inst(I) } 1.
{ swap(S) : need(S) }.
#heuristic sel(I) : inst(I). [1,false]
#heuristic swap(S) : part(S,_). [1,false]
#show sel/1. #show swap/1.`);
  const sets = minimal.map((set) => ({
    demand: all(set, 'sel')[0]?.[0] as number,
    slots: all(set, 'swap').map(([slot]) => slot as number),
  }));
  const honouring = await answerSets(
    `${setting}
${sets.map((set, k) => [`set(${k},${set.demand}).`, ...set.slots.map((slot) => `swapped(${k},${slot}).`)].join(' ')).join('\n')}
set(-1,-1). swapped(-1,-1).
1 { put(K,S,P) : swapped(K,S), part(S,P) } 1.
sel(I) :- put(K,_,_), set(K,I).
swap(S) :- put(K,_,_), swapped(K,S).
:- put(K,S,P), not c(S,P).
:- put(K,S,P), set(K,I), demand(I,S), not allow(I,P).
#show put/3.`,
    ['--project=show'],
  );
  const put = honouring.flatMap((set) => all(set, 'put'));
  return sets.map(({ demand, slots }, k) => ({
    demand,
    slots: slots.map(numbered.slotAt),
    parts: new Map(
      slots.map((slot) => [
        numbered.slotAt(slot),
        put.filter(([set, at]) => set === k && at === slot).map(([, , part]) => numbered.partAt(part)),
      ]),
    ),
  }));
};

/** S1, `leaves`: the status of the name once every replaced slot holds one of the parts given for it. */
const leavesOf = async (numbered: Numbered, found: Setting, swaps: readonly Swap[]): Promise<OracleStatus[]> => {
  if (swaps.length === 0) return [];
  // A part given for a slot may be found there any way it can be.
  const anyWay = (slot: SlotId, rows: readonly PartId[]): readonly PartId[] => {
    const given = partsOfRows(rows);
    return (numbered.question.parts.get(slot) ?? []).filter((row) => given.includes(partOfRow(row)));
  };
  const settings = swaps.map(
    ({ parts }): Setting => new Map([...found, ...[...parts].map(([slot, rows]) => [slot, anyWay(slot, rows)] as const)]),
  );
  const doubtful = await doubtfulSlots(numbered, settings);
  const { question } = numbered;
  const pairs = swaps.flatMap(({ demand }, setting) =>
    [demand, ...(question.several.find(({ own }) => own === demand)?.of ?? [])].map((each) => ({ setting, demand: each })),
  );
  const filled = swaps.map(({ slots }) => slots);
  const { statuses } = await judge(numbered, settings, doubtful, pairs, filled);
  return swaps.map(({ demand }, setting) => {
    const then = new Map(pairs.flatMap((pair, i) => (pair.setting === setting ? [[pair.demand, statuses[i] as OracleStatus]] : [])));
    return ofSeveral(
      question,
      question.demands.map((_, i) => then.get(i) ?? 'ruled out'),
      demand,
    );
  });
};
