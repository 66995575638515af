import { type Bool as BoolIn, type Context, init } from 'z3-solver';
import type { PartId, SlotId } from '../../reasoner/index.ts';
import type { OracleStatus, Wanted } from './ask-clingo.ts';
import type { Demand, Question } from './reading.ts';

/** What Z3 says of one unit, in the order of the question's demands. Sets are sorted texts. */
export interface Z3Answer {
  readonly doubtful: readonly SlotId[];
  readonly demands: readonly { readonly status: OracleStatus; readonly conflicts: readonly string[]; readonly swaps: readonly string[] }[];
}

const isSilent = ({ allowed, open }: Demand, slot: SlotId): boolean => allowed.get(slot)?.size === 0 && open.get(slot)?.size === 0;

/** A solver that gave up. */
export class SilentPeer extends Error {}

type Bool = BoolIn<'oracle'>;
let context: Promise<Context<'oracle'>> | null = null;

/** Z3 starts once; every question gets its own solver. */
const start = (): Promise<Context<'oracle'>> => {
  context ??= init().then((z3) => z3.Context('oracle'));
  return context;
};

/** A literal that may be assumed, with what it stands for. */
interface Label {
  readonly text: string;
  readonly literal: Bool;
}

/**
 * The question of ask-clingo.ts put another way: one solver, a truth value for each part, and every observation, absence, joint,
 * demand and slot behind a literal that is assumed or not. All minimal unsatisfiable and maximal satisfiable sets of literals
 * are mapped as M. H. Liffiton, A. Previti, A. Malik, J. Marques-Silva, Fast, flexible MUS enumeration, Constraints 21, 2016, map them.
 */
export const askZ3 = async (question: Question, wanted: Wanted = { explain: () => true }): Promise<Z3Answer> => {
  const kept = await keptZ3(question);
  try {
    return await kept.ask(question, wanted);
  } finally {
    kept.release();
  }
};

/** A solver that knows the parts and joints of one atlas and is asked about any of its units. */
export interface KeptZ3 {
  /** @throws Error when the question has other parts or joints than the one it was made for */
  readonly ask: (question: Question, wanted?: Wanted) => Promise<Z3Answer>;
  readonly release: () => void;
}

/** What a unit's entries and a name's demands add is pushed and popped, so that what was learned of the atlas stays. */
export const keptZ3 = async (atlas: Pick<Question, 'slots' | 'parts' | 'joints'>): Promise<KeptZ3> => {
  const { Bool, Or, Not, AtMost, Solver } = await start();
  const solver = new Solver();
  const map = new Solver();
  let made = 0;
  const literal = (): Bool => Bool.const(`b${made++}`);
  const oneOf = (parts: readonly Bool[], ...unless: Bool[]) => solver.add(Or(...unless.map((each) => Not(each)), ...parts));

  const held = new Map<PartId, Bool>();
  const filled = new Map<SlotId, Label>();
  for (const slot of atlas.slots) {
    const parts = atlas.parts.get(slot) ?? [];
    for (const part of parts) held.set(part, literal());
    const all = parts.map((part) => held.get(part) as Bool);
    const label = { text: `slot ${slot}`, literal: literal() };
    filled.set(slot, label);
    oneOf(all, label.literal);
    if (all.length > 1) solver.add(AtMost(all as [Bool, ...Bool[]], 1));
  }
  const partsOf = (slot: SlotId, keep: (part: PartId) => boolean): Bool[] =>
    (atlas.parts.get(slot) ?? []).filter(keep).map((part) => held.get(part) as Bool);
  const fill = (slot: SlotId): Bool => (filled.get(slot) as Label).literal;

  const joints: (Label & { readonly a: SlotId; readonly b: SlotId })[] = atlas.joints.map(({ id, a, b, fails }) => {
    const joint = { text: `joint ${id}`, literal: literal(), a, b };
    const bad = new Map<PartId, Set<PartId>>();
    for (const [p, q] of fails) bad.set(p, (bad.get(p) ?? new Set()).add(q));
    for (const [part, partners] of bad) {
      oneOf(
        partsOf(b, (other) => !partners.has(other)),
        joint.literal,
        fill(a),
        fill(b),
        held.get(part) as Bool,
      );
    }
    return joint;
  });

  /** `unknown` is no answer: to take it for unsatisfiable would end an enumeration early, as if it were complete. */
  const satisfied = async (asked: typeof solver, assumed: readonly Bool[]): Promise<boolean> => {
    const result = await asked.check(...assumed);
    if (result === 'unknown') throw new SilentPeer(`Z3 gave no answer: ${asked.reasonUnknown()}`);
    return result === 'sat';
  };
  const holds = (assumed: readonly Bool[]) => satisfied(solver, assumed);

  /** All minimal sets of these labels that fail beside what is assumed, and all minimal ones whose removal leaves a solution. */
  const mapOut = async (labels: readonly Label[], assumed: readonly Bool[]) => {
    map.push();
    try {
      return await mapped(labels, assumed);
    } finally {
      map.pop();
    }
  };
  const mapped = async (labels: readonly Label[], assumed: readonly Bool[]) => {
    const inside = labels.map((_, i) => Bool.const(`m${i}`));
    const fails: number[][] = [];
    const removals: number[][] = [];
    const meets = (set: readonly number[]) => holds([...assumed, ...set.map((i) => (labels[i] as Label).literal)]);
    while (await satisfied(map, [])) {
      const model = map.model();
      let set = labels.map((_, i) => i).filter((i) => String(model.eval(inside[i] as Bool, false)) !== 'false');
      if (await meets(set)) {
        for (const i of labels.keys()) if (!set.includes(i) && (await meets([...set, i]))) set = [...set, i];
        const rest = [...labels.keys()].filter((i) => !set.includes(i));
        removals.push(rest);
        map.add(Or(...rest.map((i) => inside[i] as Bool)));
      } else {
        const core = new Set([...solver.unsatCore().values()].map(String));
        set = set.filter((i) => core.has(String((labels[i] as Label).literal)));
        for (const i of [...set]) {
          const less = set.filter((other) => other !== i);
          if (!(await meets(less))) set = less;
        }
        fails.push(set);
        map.add(Or(...set.map((i) => Not(inside[i] as Bool))));
      }
    }
    const named = (sets: readonly (readonly number[])[]) => sets.map((set) => set.map((i) => (labels[i] as Label).text).sort());
    return { fails: named(fails), removals: named(removals) };
  };

  const pushed = async <T>(job: () => Promise<T>): Promise<T> => {
    solver.push();
    try {
      return await job();
    } finally {
      solver.pop();
    }
  };

  const told = shapeOf(atlas);
  const asked = async (question: Question, wanted: Wanted): Promise<Z3Answer> => {
    const evidence: (Label & { readonly slot: SlotId })[] = [];
    for (const { id, slot, excludes } of question.observations) {
      const seen = { text: `observation ${id}`, literal: literal(), slot };
      evidence.push(seen);
      oneOf(
        partsOf(slot, (part) => !excludes.has(part)),
        seen.literal,
        fill(slot),
      );
    }
    for (const slot of question.absent) {
      const nothing = { text: `absent ${slot}`, literal: literal(), slot };
      evidence.push(nothing);
      oneOf([], nothing.literal, fill(slot));
    }
    const always = [...evidence, ...joints].map((label) => label.literal);
    const own = await mapOut([...filled.values()], always);
    const doubtful = question.slots.filter((slot) => own.fails.some((set) => set.includes(`slot ${slot}`)));

    const demands: Z3Answer['demands'][number][] = [];
    const judged = async (demand: Demand): Promise<Z3Answer['demands'][number]> => {
      const naming = [...demand.allowed];
      // An open-ended list and a slot that may hold an unlisted part: nothing there can rule the name out (A7).
      const free = (slot: SlotId) =>
        demand.open.has(slot) && doubtful.includes(slot) && (!question.absent.has(slot) || isSilent(demand, slot));
      const chosen = question.slots.filter((slot) => !doubtful.includes(slot) || (demand.allowed.has(slot) && !free(slot)));
      const filling = chosen.map(fill);
      const rules = naming.map(([slot, parts]): Label => {
        const rule = { text: `demand ${slot}`, literal: literal() };
        const barred = demand.open.get(slot);
        if (!free(slot))
          oneOf(
            partsOf(slot, (part) => parts.has(part) || barred?.has(part) === false),
            rule.literal,
          );
        return rule;
      });
      const otherwise = literal();
      oneOf(
        naming.flatMap(([slot, parts]) => partsOf(slot, (part) => !parts.has(part))),
        otherwise,
      );
      const kept = rules.map((rule) => rule.literal);
      if (await holds([...filling, ...always, ...kept])) {
        const uncertain =
          !demand.mayStand || naming.some(([slot]) => doubtful.includes(slot)) || (await holds([...filling, ...always, otherwise]));
        return { status: uncertain ? 'open' : 'stands', conflicts: [], swaps: [] };
      }
      if (!wanted.explain(demand)) return { status: 'ruled out', conflicts: [], swaps: [] };
      const seen = evidence.filter(({ slot }) => chosen.includes(slot));
      const met = joints.filter(({ a, b }) => chosen.includes(a) && chosen.includes(b));
      const { fails } = await mapOut([...seen, ...met, ...rules], filling);
      const bySlot = [...new Set(seen.map(({ slot }) => slot))].map((slot): Label => {
        const together = { text: slot, literal: literal() };
        for (const { literal: one } of seen.filter((label) => label.slot === slot)) oneOf([one], together.literal);
        return together;
      });
      const { removals } = await mapOut(bySlot, [...filling, ...met.map((joint) => joint.literal), ...kept]);
      return {
        status: 'ruled out',
        conflicts: fails.map((set) => set.join(', ')).sort(),
        swaps: removals.map((set) => set.join(' ')).sort(),
      };
    };
    for (const demand of question.demands) demands.push(await pushed(() => judged(demand)));
    return { doubtful, demands };
  };
  return {
    ask: (question, wanted = { explain: () => true }) => {
      if (shapeOf(question) !== told) throw new Error('the solver was made for other parts or joints');
      return pushed(() => asked(question, wanted));
    },
    release: () => {
      solver.release();
      map.release();
    },
  };
};

const shapeOf = ({ slots, parts, joints }: Pick<Question, 'slots' | 'parts' | 'joints'>): string =>
  [...slots.map((slot) => `${slot} ${parts.get(slot)?.length}`), ...joints.map(({ id, fails }) => `${id} ${fails.length}`)].join(', ');
