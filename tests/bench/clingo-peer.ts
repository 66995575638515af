import type { PartId, SlotId } from '../../reasoner/index.ts';
import { type Atom, answerSets, type ClingoTime, minimalAnswerSets } from '../oracle/clingo.ts';
import type { Demand, Question } from '../oracle/reading.ts';

/**
 * clingo at its best on a question of the demo atlas's size. The oracle's encoding asks for conflicts outright, by saturation, which is
 * plain to read and takes minutes here; this one enumerates minimal relaxations (cheap: no disjunction) and turns them into
 * conflicts by a second, small program, as minimal hitting sets (Reiter 1987).
 */
export interface ClingoAnswer {
  readonly doubtful: readonly string[];
  readonly demands: readonly { readonly status: string; readonly conflicts: readonly string[]; readonly swaps: readonly string[] }[];
}

/** How clingo is told how parts meet: by every pair that fails, or by every pair that does not, of which there are far fewer on a large atlas. */
export type Pairs = 'failing' | 'compatible';

export const askClingoFast = async (
  question: Question,
  explain: (demand: Demand) => boolean,
  { pairs = 'failing', took }: { readonly pairs?: Pairs; readonly took?: (time: ClingoTime) => void } = {},
): Promise<ClingoAnswer> => {
  const atlas = factsOf(question, pairs);
  const meet = (unless = '') =>
    pairs === 'failing'
      ? `:- joint(J,S1,S2), c(S1,P), c(S2,Q), fails(J,P,Q)${unless}.`
      : `:- joint(J,S1,S2), c(S1,P), held(S2)${unless}, not c(S2,Q) : goes(J,P,Q). held(S) :- c(S,_).`;
  const slotAt = (at: number) => question.slots[at] as string;

  // W: the union of the minimal conflicts among the slots is the union of their minimal relaxations.
  const relaxed = await minimalAnswerSets(
    `${atlas}
{ out(S) : slot(S) }.
1 { c(S,P) : live(S,P) } 1 :- slot(S), not out(S).
${meet()}
#heuristic out(S) : slot(S). [1,false]
#show out/1.`,
    took,
  );
  const doubtful = new Set(relaxed.flatMap((set) => args(set, 'out').map(([slot]) => slot as number)));
  const doubt = [...doubtful].map((slot) => `doubtful(${slot}).`).join(' ');

  const judged = await answerSets(
    `${atlas} ${doubt} ${question.demands.map((demand, i) => demandFacts(question, demand, i)).join(' ')}
1 { met(I) : inst(I); broken(I) : inst(I) } 1.
need(S) :- slot(S), not doubtful(S).
need(S) :- met(I), demand(I,S). need(S) :- broken(I), demand(I,S).
1 { c(S,P) : live(S,P) } 1 :- need(S).
${meet()}
:- met(I), demand(I,S), c(S,P), not allow(I,P).
other :- broken(I), demand(I,S), c(S,P), not allow(I,P).
:- broken(_), not other.
#show met/1. #show broken/1.`,
    ['--project=show'],
    took,
  );
  const said = (name: string) => new Set(judged.flatMap((set) => args(set, name).map(([i]) => i as number)));
  const [met, broken] = [said('met'), said('broken')];

  const demands: ClingoAnswer['demands'][number][] = [];
  for (const [i, demand] of question.demands.entries()) {
    const uncertain = [...demand.allowed.keys()].some((slot) => doubtful.has(question.slots.indexOf(slot)));
    const status = !met.has(i) ? 'ruled out' : broken.has(i) || uncertain ? 'open' : 'stands';
    if (status !== 'ruled out' || !explain(demand)) {
      demands.push({ status, conflicts: [], swaps: [] });
      continue;
    }
    const setting = `${atlas} ${doubt} ${demandFacts(question, demand, i)}
need(S) :- slot(S), not doubtful(S). need(S) :- demand(_,S).
1 { c(S,P) : part(S,P) } 1 :- need(S).`;
    const relaxations = await minimalAnswerSets(
      `${setting}
member(1,O) :- obs(O,S), need(S). member(2,S) :- absent(S), need(S). member(3,J) :- joint(J,S1,S2), need(S1), need(S2). member(4,S) :- demand(_,S).
{ out(K,M) : member(K,M) }.
:- obs(O,S), need(S), c(S,P), excl(O,P), not out(1,O).
:- absent(S), need(S), not out(2,S).
${meet(', not out(3,J)')}
:- demand(I,S), c(S,P), not allow(I,P), not out(4,S).
#heuristic out(K,M) : member(K,M). [1,false]
#show out/2.`,
      took,
    );
    const sets = relaxations.map((set) => args(set, 'out'));
    const conflicts = await minimalAnswerSets(
      `${sets.map((set, k) => `set(${k}). ${set.map(([kind, at]) => `has(${k},${kind},${at}).`).join(' ')}`).join('\n')}
{ in(K,M) : has(_,K,M) }.
:- set(X), not in(K,M) : has(X,K,M).
#heuristic in(K,M) : has(_,K,M). [1,false]
#show in/2.`,
      took,
    );
    const swaps = await minimalAnswerSets(
      `${setting}
{ swap(S) : need(S), obs(_,S); swap(S) : need(S), absent(S) }.
:- need(S), c(S,P), not live(S,P), not swap(S).
${meet()}
:- demand(I,S), c(S,P), not allow(I,P).
#heuristic swap(S) : slot(S). [1,false]
#show swap/1.`,
      took,
    );
    demands.push({
      status,
      conflicts: conflicts.map((set) => args(set, 'in').map(named(question)).sort().join(', ')),
      swaps: swaps.map((set) =>
        args(set, 'swap')
          .map(([slot]) => slotAt(slot as number))
          .sort()
          .join(' '),
      ),
    });
  }
  return { doubtful: [...doubtful].map(slotAt), demands };
};

const args = (found: readonly Atom[], name: string): readonly (readonly number[])[] =>
  found.filter((atom) => atom.name === name).map((atom) => atom.args);

const named =
  (question: Question) =>
  ([kind, at]: readonly number[]): string => {
    if (kind === 1) return `observation ${question.observations[at as number]?.id}`;
    if (kind === 3) return `joint ${question.joints[at as number]?.id}`;
    return `${kind === 2 ? 'absent' : 'demand'} ${question.slots[at as number]}`;
  };

const goingTogether = (
  { parts }: Question,
  a: SlotId,
  b: SlotId,
  fails: readonly (readonly [PartId, PartId])[],
): readonly (readonly [PartId, PartId])[] => {
  const failing = new Map<PartId, Set<PartId>>();
  for (const [p, q] of fails) failing.set(p, (failing.get(p) ?? new Set()).add(q));
  const others = parts.get(b) ?? [];
  return (parts.get(a) ?? []).flatMap((p) => others.filter((q) => failing.get(p)?.has(q) !== true).map((q) => [p, q] as const));
};

/** slot/1, part/2, live/2 (agreeing with everything seen), obs/2, excl/2, absent/1, joint/3, and fails/3 or goes/3. */
const factsOf = (question: Question, pairs: Pairs): string => {
  const numbers = numbersOf(question);
  const facts: string[] = ['obs(-1,-1). excl(-1,-1). absent(-1). joint(-1,-1,-1). fails(-1,-1,-1). goes(-1,-1,-1). doubtful(-1).'];
  for (const [s, slot] of question.slots.entries()) {
    facts.push(`slot(${s}).`);
    for (const part of question.parts.get(slot) ?? []) {
      facts.push(`part(${s},${numbers.get(part)}).`);
      const gone = question.absent.has(slot) || question.observations.some((seen) => seen.slot === slot && seen.excludes.has(part));
      if (!gone) facts.push(`live(${s},${numbers.get(part)}).`);
    }
    if (question.absent.has(slot)) facts.push(`absent(${s}).`);
  }
  for (const [o, { slot, excludes }] of question.observations.entries()) {
    facts.push(`obs(${o},${question.slots.indexOf(slot)}).`);
    for (const part of excludes) facts.push(`excl(${o},${numbers.get(part)}).`);
  }
  for (const [j, { a, b, fails }] of question.joints.entries()) {
    facts.push(`joint(${j},${question.slots.indexOf(a)},${question.slots.indexOf(b)}).`);
    if (pairs === 'failing') for (const [p, q] of fails) facts.push(`fails(${j},${numbers.get(p)},${numbers.get(q)}).`);
    else facts.push(...goingTogether(question, a, b, fails).map(([p, q]) => `goes(${j},${numbers.get(p)},${numbers.get(q)}).`));
  }
  return facts.join('\n');
};

const demandFacts = (question: Question, { allowed }: Demand, i: number): string => {
  const numbers = numbersOf(question);
  return [
    `inst(${i}).`,
    ...[...allowed].flatMap(([slot, parts]) => [
      `demand(${i},${question.slots.indexOf(slot)}).`,
      ...[...parts].map((part) => `allow(${i},${numbers.get(part)}).`),
    ]),
  ].join(' ');
};

const made = new WeakMap<Question, ReadonlyMap<string, number>>();
const numbersOf = (question: Question): ReadonlyMap<string, number> => {
  const known = made.get(question) ?? new Map([...question.parts.values()].flat().map((part, i) => [part as string, i]));
  made.set(question, known);
  return known;
};
