import type { ReplacementFit, ReplacementNeed, Replacements, SwapSet, SwapSets } from '../answer/verdict.ts';
import type { CompiledJoint, CompiledSlot } from '../compile/compiled.ts';
import type { NameRule } from '../compile/name-rule.ts';
import type { InHand } from '../fits/judge-joint.ts';
import type { PairFit } from '../fits/work/pair-fit.ts';
import type { WorkPlan } from '../fits/work/work.ts';
import type { PartId } from '../ids.ts';
import { partsIn } from '../unit/groups.ts';
import { inHandOf } from '../unit/in-hand.ts';
import type { JointNeed } from '../unit/joint-need.ts';
import type { Unit, UnitSlot } from '../unit/unit.ts';
import { needSentence } from '../words/need-sentence.ts';
import { inOrderOfS1, swapSetOf } from './explain.ts';
import { leastWork } from './least-work.ts';
import { classOfPart, type PairJudge, pairJudgeOf } from './pairs-at-work.ts';
import { type Swap, type Swapped, swapsFor } from './swaps-for.ts';

/** So many pairs are judged for one name at most; what is left is *not looked into*. */
export const usualPairs = 5000;

/**
 * The swap sets of a name with what their parts need before they go on (S1), in order of what that makes them cost. A replacement is judged as the atlas has it: beside every listed
 * part that remains of each neighbour once the swap is made, as that was read, and beside any of the parts given where the neighbour is replaced too.
 * @param unit the unit as found, or a build on paper with its joints
 * @param swapped as for `swapsFor`
 * @param pairs how many pairs of parts are judged at most
 */
export const swapSetsWithNeeds = (unit: Unit, rule: NameRule, swapped?: Swapped, pairs = usualPairs): SwapSets => {
  const judge = pairJudgeOf(unit.atlas, readOf(unit));
  const budget = { left: pairs };
  const found: SwapSet[] = [];
  const { complete } = swapsFor(unit, rule, swapped, undefined, (swap, after) => found.push(withNeeds(unit, swap, after, judge, budget)));
  return { complete, found: found.sort(inOrderOfS1) };
};

interface Budget {
  left: number;
}

const withNeeds = (unit: Unit, swap: Swap, after: Unit, judge: PairJudge, budget: Budget): SwapSet => {
  const set = swapSetOf(unit, swap);
  const isPlate = (slot: number): boolean => unit.slots[slot]?.of.data.group === 'plate';
  const given = new Map(swap.slots.flatMap((slot, i) => (isPlate(slot) ? [] : [[slot, swap.parts[i] as readonly number[]] as const])));
  const bench: Bench = { unit, given, gone: new Set(swap.slots.filter(isPlate)), after, judge, budget };
  const needs = new Map([...given].map(([slot, parts]) => [slot, needsOfSlot(bench, slot, parts)]));
  const work = leastOf(bench, needs);
  return {
    ...set,
    parts: set.parts.map((each, i) => replacementsOf(unit, each, [...needs.values()][i] as readonly (readonly JointNeed[])[])),
    work,
    minutes: set.minutes + work,
  };
};

/** Parts of one class need the same. */
const needsOfSlot = (bench: Bench, slot: number, parts: readonly number[]): readonly (readonly JointNeed[])[] => {
  const known = new Map<number, readonly JointNeed[]>();
  return parts.map((part) => {
    bench.unit.atlas.pulse();
    const group = classOfPart(bench.unit.atlas, bench.unit.atlas.slots[slot] as CompiledSlot, part);
    const needs = known.get(group) ?? needsOf(bench, slot, part);
    known.set(group, needs);
    return needs;
  });
};

/** The least work a choice of the parts given takes; 0 where not every pair was looked into, or nothing goes together. */
const leastOf = (bench: Bench, needs: ReadonlyMap<number, readonly (readonly JointNeed[])[]>): number => {
  if ([...needs.values()].flat(2).some(({ fit }) => fit === 'not looked into')) return 0;
  const slots = [...bench.given].map(([slot, numbers]) => {
    const of = bench.unit.atlas.slots[slot] as CompiledSlot;
    const going = numbers.flatMap((part, i) => {
      const own = needs.get(slot)?.[i] ?? [];
      // Beside what stays; between two that are replaced the pair decides.
      const minutes = own.reduce((sum, need) => sum + (need.otherIsNew ? 0 : need.minutes), 0);
      return own.some(({ fit }) => fit === 'will not fit') ? [] : [{ part, minutes }];
    });
    return { slot, parts: [...new Map(going.map((each) => [classOfPart(bench.unit.atlas, of, each.part), each])).values()] };
  });
  // Where none of the parts given for a slot goes on there is no work to count.
  if (slots.some(({ slot, parts }) => parts.length === 0 && bench.given.get(slot)?.length !== 0)) return 0;
  return leastWork(slots, (slot, part, other, otherPart) => minutesBetween(bench, slot, part, other, otherPart));
};

/** What is held against each other. */
interface Bench {
  readonly unit: Unit;
  /** Of each slot whose part is replaced, the parts given. */
  readonly given: ReadonlyMap<number, readonly number[]>;
  /** Plates that only the maker can issue: nothing is fitted there. */
  readonly gone: ReadonlySet<number>;
  readonly after: Unit;
  readonly judge: PairJudge;
  readonly budget: Budget;
}

/** What was read of the unit's parts; of a unit as found whatever part is there is in hand. */
const readOf = ({ atlas, sheet }: Unit): InHand =>
  inHandOf(
    sheet.kind === 'planned'
      ? sheet
      : { ...sheet, chosen: Object.fromEntries(atlas.slots.map(({ data: slot }) => [slot.id, '' as PartId])) },
  );

const needsOf = (bench: Bench, slot: number, part: number): readonly JointNeed[] =>
  bench.unit.atlas.joints.flatMap((joint) => {
    if (joint.a !== slot && joint.b !== slot) return [];
    const need = needAt(bench, joint, slot, part);
    return need === null || need.fit === 'drops in' ? [] : [need];
  });

const needAt = (bench: Bench, joint: CompiledJoint, slot: number, part: number): JointNeed | null => {
  const { unit, given, gone } = bench;
  const other = joint.a === slot ? joint.b : joint.a;
  const [here, there] = [unit.slots[slot] as UnitSlot, bench.after.slots[other] as UnitSlot];
  const replaced = given.get(other);
  // Nothing to meet: no part there, none chosen yet, or none given.
  if (gone.has(other) || replaced?.length === 0) return null;
  const onPaper = unit.sheet.kind === 'planned';
  if (replaced === undefined && (there.absent || (onPaper && unit.sheet.chosen[there.of.data.id] === undefined))) return null;
  const neighbours = replaced ?? partsIn(there);
  const examples = [...new Map(neighbours.map((neighbour) => [classOfPart(unit.atlas, there.of, neighbour), neighbour])).values()];
  const told = { joint, slot: here.of, other: there.of, otherIsNew: replaced !== undefined, worksDiffer: false, found: [], minutes: 0 };
  // On paper a slot with a part chosen holds that part.
  if (replaced === undefined && (neighbours.length === 0 || (!onPaper && there.doubtful)))
    return { ...told, fit: 'not known', inDoubt: true };
  bench.budget.left -= examples.length;
  if (bench.budget.left < 0) return { ...told, fit: 'not looked into', inDoubt: false };
  const stays = replaced !== undefined ? 'neither' : joint.a === slot ? 'b' : 'a';
  const fits = examples.map((neighbour) =>
    joint.a === slot ? bench.judge(joint, part, neighbour, stays) : bench.judge(joint, neighbour, part, stays),
  );
  // What it does not go with at all is not what the unit has once it is on.
  const going = fits.filter(({ kind }) => kind !== 'will not fit');
  const found = leastOfEach(going.length > 0 ? going : fits);
  const best = found[0] as PairFit;
  const settled = { ...told, inDoubt: false, fit: best.kind, minutes: workMinutes(best) };
  // Of what is replaced too, one is taken that goes best.
  if (replaced !== undefined) return { ...settled, found: [best] };
  const worksDiffer = new Set(going.flatMap((fit) => (fit.kind === 'after work' ? operationsOf(fit.plan) : []))).size > 1;
  return found.length > 1 ? { ...settled, fit: 'depends', found, worksDiffer, minutes: 0 } : { ...settled, found, worksDiffer };
};

const operationsOf = ({ works }: WorkPlan): string => works.map(({ operation }) => operation).join();

const kinds: readonly PairFit['kind'][] = ['drops in', 'measure and choose', 'after work', 'not known', 'will not fit'];

/** Of each kind there is the one of fewest hours, the best kind first. */
const leastOfEach = (fits: readonly PairFit[]): PairFit[] =>
  kinds.flatMap((kind) => {
    const alike = fits.filter((fit) => fit.kind === kind);
    return alike.length === 0 ? [] : [alike.reduce((least, fit) => (hours(fit) < hours(least) ? fit : least))];
  });

const hours = (fit: PairFit): number =>
  fit.kind === 'after work' ? fit.plan.hours : fit.kind === 'measure and choose' ? (fit.plan?.hours ?? Number.POSITIVE_INFINITY) : 0;

/** Minutes that have to be worked. */
const workMinutes = (fit: PairFit): number => (fit.kind === 'after work' ? Math.round(fit.plan.hours * 60) : 0);

/** Minutes of work where both parts are replaced; null where they do not go together at all. */
const minutesBetween = ({ unit, judge }: Bench, slot: number, part: number, other: number, otherPart: number): number | null => {
  let sum = 0;
  for (const joint of unit.atlas.joints) {
    const forward = joint.a === slot && joint.b === other;
    if (!forward && !(joint.b === slot && joint.a === other)) continue;
    const fit = forward ? judge(joint, part, otherPart, 'neither') : judge(joint, otherPart, part, 'neither');
    if (fit.kind === 'will not fit') return null;
    sum += workMinutes(fit);
  }
  return sum;
};

const order: readonly ReplacementFit[] = ['measure and choose', 'after work', 'depends', 'not known', 'not looked into', 'will not fit'];

/** Those that drop in first, then those that need the least; within that in the order of the atlas. */
const replacementsOf = ({ atlas }: Unit, { slot, parts }: Replacements, needs: readonly (readonly JointNeed[])[]): Replacements => {
  const dropsIn: PartId[] = [];
  const groups = new Map<string, ReplacementNeed & { readonly parts: PartId[] }>();
  parts.forEach((part, i) => {
    const own = needs[i] as readonly JointNeed[];
    const [first] = own;
    if (first === undefined) {
      dropsIn.push(part);
      return;
    }
    const sentences = own.map((need) => needSentence(atlas, need));
    const group = groups.get(sentences.join('\n'));
    if (group !== undefined) group.parts.push(part);
    else
      groups.set(sentences.join('\n'), {
        parts: [part],
        fit: own.reduce((worst, { fit }) => (rank(fit) > rank(worst) ? fit : worst), first.fit) as ReplacementFit,
        minutes: own.reduce((sum, { minutes }) => sum + minutes, 0),
        sentences,
      });
  });
  const sorted = [...groups.values()].sort((a, b) => rank(a.fit) - rank(b.fit) || a.minutes - b.minutes);
  return { slot, parts: [...dropsIn, ...sorted.flatMap((group) => group.parts)], needs: sorted };
};

const rank = (fit: JointNeed['fit']): number => order.indexOf(fit as ReplacementFit);
