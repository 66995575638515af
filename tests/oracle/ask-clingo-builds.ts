import { answerSets, type ClingoTime } from './clingo.ts';
import {
  agrees,
  type BuildConstraints,
  type CompiledAtlas,
  type FitVerdict,
  housingSlots,
  type NameRule,
  type Part,
  type PartId,
  planWork,
  rankOf,
  rungs,
  type Sheet,
  type SlotId,
  union,
} from './reasoner-within.ts';

/** What a completed build is weighed by. */
export const axes = ['hours', 'money', 'works', 'rank'] as const;
export type Axis = (typeof axes)[number];
export type Weights = Readonly<Record<Axis, number>>;

/**
 * The question of completing a build, written for clingo: choices, pairs with their ways to go together, prices, and names with their ranks. Only for
 * atlases in which no work at one joint touches another, without chains, and with every price known; nothing is left open.
 */
export const buildProgram = (atlas: CompiledAtlas, sheet: Sheet, constraints: BuildConstraints): string => {
  const { slots, parts, operations = [], rates = [] } = atlas.data;
  const stock = new Set(constraints.stock);
  const prices = new Map(rates[0]?.parts.map(({ part, price }) => [part, price]));
  const number = new Map<PartId, number>(parts.map((part, i) => [part.id, i]));
  const lines: string[] = [];
  const may = slots.map((slot): readonly Part[] => {
    const chosen = sheet.chosen[slot.id];
    if (chosen !== undefined) return parts.filter((part) => part.id === chosen);
    if (sheet.absent.includes(slot.id) || slot.group === 'plate') return [];
    return parts.filter((part) => part.slot === slot.id && meets(atlas, part, constraints, stock));
  });
  const filled = slots.map((slot) => sheet.chosen[slot.id] !== undefined || (!sheet.absent.includes(slot.id) && slot.group !== 'plate'));
  slots.forEach((slot, s) => {
    if (!filled[s]) return;
    lines.push(`slot(${s}).`);
    for (const part of may[s] as readonly Part[]) {
      const price = sheet.chosen[slot.id] !== undefined || stock.has(part.id) ? 0 : prices.get(part.id);
      if (price === undefined) throw new Error(`${part.id} has no price`);
      lines.push(`part(${s},${number.get(part.id)}). price(${number.get(part.id)},${Math.round(price)}).`);
    }
  });
  for (const { data: joint, a, b, number: j } of atlas.joints) {
    if (!filled[a] || !filled[b]) continue;
    lines.push(`joint(${j},${a},${b}).`);
    const ends = { a: slots[a]?.id as SlotId, b: slots[b]?.id as SlotId };
    for (const one of may[a] as readonly Part[]) {
      for (const other of may[b] as readonly Part[]) {
        const most = Math.min(3, constraints.atMost ?? 3);
        const { fit, plans } = planWork(joint, ends, one, other, operations, { atMost: most });
        const ways = [
          ...(good(fit.verdict) ? [{ hours: 0, works: 0 }] : []),
          ...plans
            .filter(({ after, allowed }) => allowed === 'holds' && good(after.verdict))
            .map(({ hours, works }) => ({ hours, works: works.length })),
        ];
        for (const [k, { hours, works }] of ways.entries())
          lines.push(`way(${j},${number.get(one.id)},${number.get(other.id)},${k},${Math.round(hours * 100)},${works}).`);
      }
    }
  }
  // Names mostly ask for the same parts of a slot, which are then listed once: clingo can be handed a megabyte and no more.
  const groups = new Map<string, number>();
  const groupOf = (parts: readonly Part[]): number => {
    const numbers = parts.map(({ id }) => number.get(id));
    const known = groups.get(numbers.join()) ?? groups.size;
    if (known === groups.size) lines.push(...numbers.map((part) => `in(${known},${part}).`));
    groups.set(numbers.join(), known);
    return known;
  };
  const rules = namesFor(atlas);
  rules.forEach(({ rank, demands, unless }, n) => {
    lines.push(rank === null ? `possible(${n}).` : `name(${n},${rank}).`);
    for (const other of unless) lines.push(`unless(${n},${other}).`);
    demands.forEach((demand, s) => {
      if (demand === null) return;
      const belong = (may[s] as readonly Part[]).filter(({ id }) => demand.has(atlas.slots[s]?.partNumber.get(id) as number));
      lines.push(`demand(${n},${groupOf(belong)}).`);
    });
  });
  return `${lines.join('\n')}
% Stated empty where there are none.
way(-1,-1,-1,-1,0,0). joint(-1,-1,-1). demand(-1,-1). in(-1,-1). possible(-1). unless(-1,-1).
1 { sel(S,P) : part(S,P) } 1 :- slot(S).
1 { use(J,P,Q,K) : way(J,P,Q,K,_,_), sel(A,P), sel(B,Q) } 1 :- joint(J,A,B), J >= 0.
met(G) :- sel(S,P), in(G,P).
failing(N) :- demand(N,G), N >= 0, not met(G).
broken(N) :- failing(N).
broken(N) :- unless(N,M), possible(M), not failing(M).
better(R) :- name(N,R), not broken(N).
rank(R) :- better(R), not lower(R).
lower(R) :- better(Q), better(R), Q < R.
${constraints.atMost === undefined ? '' : `:- #sum { W,J : use(J,P,Q,K), way(J,P,Q,K,_,W) } > ${constraints.atMost}.`}
#show sel/2. #show use/4. #show rank/1.`;
};

const good = (verdict: FitVerdict): boolean => verdict === 'drops in';

const meets = (atlas: CompiledAtlas, part: Part, constraints: BuildConstraints, stock: ReadonlySet<PartId>): boolean =>
  (constraints.maker === undefined || part.maker === constraints.maker) &&
  (constraints.onlyStock !== true || stock.has(part.id)) &&
  (constraints.require ?? []).every((each) => {
    const feature = atlas.features.get(each.feature);
    const fact = part.facts[each.feature];
    if (each.slot !== part.slot) return true;
    return feature !== undefined && fact !== undefined && agrees(feature, fact, { value: each.value, sure: { kind: 'seen' } }) === 'holds';
  });

/** A name as sets of parts that make it stand, or (no rank) that leave it possible; and others, by their place, none of which may be possible. */
interface Ranked {
  readonly rank: number | null;
  readonly demands: NameRule['demands'];
  readonly unless: readonly number[];
}

/**
 * Every name with its rank. One of several stands where what it demands holds and one of the several is possible. Hybrids are told apart by the origin of
 * each housing: the core's own, another of its family, another family's, or not said.
 */
const namesFor = (atlas: CompiledAtlas): Ranked[] => {
  const housings = housingSlots(atlas);
  const asksOfCore = (demands: NameRule['demands']) =>
    demands.some((demand, s) => demand !== null && atlas.slots[s]?.data.group === 'core');
  /** The parts that do not rule a name out in a slot: of an open-ended list all but those known not to belong (A7). */
  const possibleIn = ({ demands, open }: NameRule, s: number): NameRule['demands'][number] => {
    const [demand, barred] = [demands[s] ?? null, open.get(s)];
    if (demand === null || barred === undefined) return demand;
    return new Set((atlas.slots[s]?.parts ?? []).flatMap((_, part) => (barred.has(part) ? [] : [part])));
  };
  const both = (one: NameRule['demands'][number], other: NameRule['demands'][number]) =>
    one === null || other === null ? (one ?? other) : new Set([...one].filter((part) => other.has(part)));
  const noneOf = [...new Set(atlas.familyParts.flatMap((family) => family.noneOf))];
  const possible = noneOf.map((rule): Ranked => ({ rank: null, demands: rule.demands.map((_, s) => possibleIn(rule, s)), unless: [] }));
  const plain = atlas.names
    .filter(({ name, demands }) => name.rung === 'parts' || asksOfCore(demands))
    .flatMap(({ name, demands, anyOf }): Ranked[] =>
      (anyOf ?? [null]).map((one) => ({
        rank: rankOf(name),
        demands: one === null ? demands : demands.map((demand, s) => both(demand, possibleIn(one, s))),
        unless: [],
      })),
    );
  const inFamilies = atlas.familyParts
    .filter(({ rule }) => asksOfCore(rule.demands))
    .map(
      (family): Ranked => ({
        rank: rankOf(family.rule.name),
        demands: family.rule.demands,
        unless: family.noneOf.map((each) => noneOf.indexOf(each)),
      }),
    );
  const hybrids = atlas.names
    .filter(({ name, demands }) => name.rung === 'core' && asksOfCore(demands))
    .flatMap(({ name, demands }) => {
      const families = new Set(name.models.map((model) => atlas.models.get(model)?.family));
      const ofFamilies = (own: boolean, number: number) =>
        union(
          [...atlas.housings.ofFamily].flatMap(([family, lists]) => (families.has(family) === own ? (lists[number]?.parts ?? []) : [])),
        );
      const options = housings.map(({ number }) => [
        { kind: 'own', parts: union(name.models.flatMap((model) => atlas.housings.ofModel.get(model)?.[number]?.parts ?? [])) },
        { kind: 'own family', parts: ofFamilies(true, number) },
        { kind: 'family', parts: ofFamilies(false, number) },
        { kind: 'unidentified', parts: null },
      ]);
      type Option = (typeof options)[number][number];
      const ways = options.reduce<Option[][]>((all, list) => all.flatMap((head) => list.map((each) => [...head, each])), [[]]);
      return ways
        .filter((way) => !way.every(({ kind }) => kind === 'own') && !way.every(({ kind }) => kind === 'unidentified'))
        .map((way) => {
          const count = (kind: string) => way.filter((each) => each.kind === kind).length;
          const held = demands.map((demand, s) => {
            const at = housings.findIndex(({ number }) => number === s);
            return at < 0 ? demand : (way[at]?.parts ?? demand);
          });
          // A hybrid says where each housing is from; with one of them not said it is a core (SPEC, Names).
          const rung = rungs.indexOf(count('unidentified') === 0 ? 'hybrid' : 'core');
          const rank = 1000 * rung + 100 * count('unidentified') + 10 * count('family') + count('own family');
          return { rank, demands: held, unless: [] };
        });
    });
  return [...possible, ...plain, ...inFamilies, ...hybrids];
};

const sums: Readonly<Record<Axis, (hourly: number, level: number) => string>> = {
  hours: (_, level) => `#minimize { H@${level},J : use(J,P,Q,K), way(J,P,Q,K,H,_) }.`,
  works: (_, level) => `#minimize { W@${level},J : use(J,P,Q,K), way(J,P,Q,K,_,W) }.`,
  rank: (_, level) => `#minimize { R@${level} : rank(R) }.`,
  money: (hourly, level) =>
    `#minimize { H*${hourly}@${level},j,J : use(J,P,Q,K), way(J,P,Q,K,H,_) ; C*100@${level},p,S : sel(S,P), price(P,C) }.`,
};

/** The best build by these axes, the first deciding before the second: what it is worth, or null where there is none. */
export const bestByClingo = async (
  atlas: CompiledAtlas,
  sheet: Sheet,
  constraints: BuildConstraints,
  order: readonly Axis[],
  took?: (time: ClingoTime) => void,
): Promise<Weights | null> => {
  const program = buildProgram(atlas, sheet, constraints);
  const hourly = atlas.data.rates?.[0]?.hour ?? 0;
  const goals = order.map((axis, i) => sums[axis](hourly, order.length - i)).join('\n');
  const best = (await answerSets(`${program}\n${goals}`, [], took)).at(-1);
  if (best === undefined) return null;
  const facts = new Map<string, readonly [number, number]>();
  for (const [, key, hours, works] of program.matchAll(/way\((\d+,\d+,\d+,\d+),(\d+),(\d+)\)\./g))
    facts.set(key as string, [Number(hours), Number(works)]);
  const price = new Map<number, number>();
  for (const [, part, of] of program.matchAll(/price\((\d+),(\d+)\)\./g)) price.set(Number(part), Number(of));
  const used = best.filter(({ name }) => name === 'use').map(({ args }) => facts.get(args.join()) as readonly [number, number]);
  const hours = used.reduce((sum, [each]) => sum + each, 0) / 100;
  const parts = best.filter(({ name }) => name === 'sel').reduce((sum, { args }) => sum + (price.get(args[1] as number) ?? 0), 0);
  return {
    hours,
    works: used.reduce((sum, [, each]) => sum + each, 0),
    money: parts + hours * hourly,
    rank: best.find(({ name }) => name === 'rank')?.args[0] as number,
  };
};
