import { agrees } from '../../../reasoner/atlas/agree.ts';
import type { BuildConstraints } from '../../../reasoner/builds/completion.ts';
import { type BuildJoint, jointsAmong } from '../../../reasoner/builds/work-sets.ts';
import { type InHand, judgeJoint } from '../../../reasoner/fits/judge-joint.ts';
import type { Known } from '../../../reasoner/fits/known.ts';
import { planWork } from '../../../reasoner/fits/work/plan-work.ts';
import type { Work } from '../../../reasoner/fits/work/work.ts';
import type { CompiledAtlas, FeatureId, JointId, NameId, Part, PartId, Sheet, SlotId } from '../../../reasoner/index.ts';
import { planBuild } from '../../../reasoner/index.ts';
import { rankOf } from '../../../reasoner/names/rank.ts';
import { inHandOf } from '../../../reasoner/unit/in-hand.ts';

/** A build with what it is weighed by, worked out the long way: every part in every slot, every order of works. */
export interface WeighedBuild {
  readonly chosen: Readonly<Record<SlotId, PartId>>;
  readonly hours: number;
  readonly cost: number | null;
  readonly unpriced: readonly PartId[];
  readonly operations: number;
  readonly open: number;
  readonly names: readonly NameId[];
  readonly rank: number;
}

/** Every build that meets the constraints and that no other beats; by looking at all of them and holding each against each. */
export const buildsByHand = (atlas: CompiledAtlas, sheet: Sheet, constraints: BuildConstraints): readonly WeighedBuild[] => {
  const all = choicesByHand(atlas, sheet, constraints).flatMap((chosen) => weighed(atlas, sheet, chosen, constraints));
  return all.filter((build) => !all.some((other) => beats(other, build)));
};

/** How many choices of parts there are before any joint is asked. */
export const choiceCount = (atlas: CompiledAtlas, sheet: Sheet, constraints: BuildConstraints): number =>
  atlas.slots.reduce((product, { data: slot }) => product * Math.max(1, candidates(atlas, sheet, constraints, slot.id)?.length ?? 1), 1);

const candidates = (atlas: CompiledAtlas, sheet: Sheet, constraints: BuildConstraints, slot: SlotId): readonly Part[] | null => {
  const compiled = atlas.slots[atlas.slotNumber.get(slot) as number] as CompiledAtlas['slots'][number];
  const chosen = sheet.chosen[slot];
  if (chosen !== undefined) return compiled.parts.filter(({ id }) => id === chosen);
  if (sheet.absent.includes(slot) || compiled.data.group === 'plate') return null;
  return compiled.parts.filter(
    (part) =>
      (constraints.maker === undefined || part.maker === constraints.maker) &&
      (constraints.onlyStock !== true || constraints.stock?.includes(part.id)) &&
      sheet.observations.every((seen) => {
        const feature = atlas.features.get(seen.feature);
        if (feature === undefined || seen.slot !== slot || seen.sure.kind === 'told') return true;
        return agrees(feature, part.facts[seen.feature] ?? { kind: 'not known' }, seen) !== 'fails';
      }),
  );
};

const choicesByHand = (atlas: CompiledAtlas, sheet: Sheet, constraints: BuildConstraints): readonly Record<SlotId, PartId>[] =>
  atlas.slots.reduce<readonly Record<SlotId, PartId>[]>(
    (all, { data: slot }) => {
      const parts = candidates(atlas, sheet, constraints, slot.id);
      return parts === null ? all : all.flatMap((chosen) => parts.map(({ id }) => ({ ...chosen, [slot.id]: id })));
    },
    [{}],
  );

const weighed = (
  atlas: CompiledAtlas,
  sheet: Sheet,
  chosen: Readonly<Record<SlotId, PartId>>,
  constraints: BuildConstraints,
): readonly WeighedBuild[] => {
  // A slot left empty is empty for good: no plate is added for the sake of a name.
  const empty = atlas.slots.flatMap(({ data: slot }) => (chosen[slot.id] === undefined ? [slot.id] : []));
  const observations = sheet.observations.filter(({ slot }) => !empty.includes(slot));
  const whole: Sheet = { ...sheet, chosen, absent: empty, observations };
  const plan = planBuild(atlas, whole);
  if (plan.kind !== 'plan') throw new Error('the sheet contradicts itself');
  if (constraints.keep !== undefined && plan.names.find(({ name }) => name.id === constraints.keep)?.status !== 'stands') return [];
  const rates = atlas.data.rates?.[0] ?? null;
  const bought = Object.values(chosen).filter((part) => !Object.values(sheet.chosen).includes(part) && !constraints.stock?.includes(part));
  const priceOf = (part: PartId) => rates?.parts.find((each) => each.part === part)?.price ?? null;
  const unpriced = rates === null ? [] : bought.filter((part) => priceOf(part) === null);
  const [best] = plan.names.filter(({ name }) => plan.honest.includes(name.id));
  const partIn = (slot: SlotId): Part | undefined => atlas.parts.get(chosen[slot] as PartId);
  // What was measured is of the parts in hand alone.
  const ways = waysByHand(atlas, jointsAmong(atlas, partIn), inHandOf(sheet), constraints.atMost ?? Number.POSITIVE_INFINITY);
  return ways
    .filter((way) => accepted(way, constraints.mayLeave ?? 'nothing'))
    .map(({ works, open }) => {
      const hours = works.reduce((sum, work) => sum + work.hours, 0);
      const money = rates === null ? null : hours * rates.hour + bought.reduce((sum, part) => sum + (priceOf(part) ?? 0), 0);
      return {
        chosen,
        hours,
        cost: money === null ? null : Math.round(money * 100) / 100,
        unpriced,
        operations: works.length,
        open,
        names: plan.honest,
        rank: best === undefined ? Number.NaN : rankOf(best.name),
      };
    });
};

interface Way {
  readonly works: readonly Work[];
  readonly failing: number;
  readonly unknown: number;
  readonly open: number;
}

/** Every sequence of plans of joints that are not right, to the end, whatever came before. */
const waysByHand = (atlas: CompiledAtlas, joints: readonly BuildJoint[], inHand: InHand, most: number): readonly Way[] => {
  const ways: Way[] = [];
  const visit = (works: readonly Work[], facts: InHand, doubtful: ReadonlySet<JointId>): void => {
    const fits = joints.map(({ joint, slots, a, b }) => judgeJoint(joint, slots, a, b, facts));
    const count = (which: (fit: (typeof fits)[number]) => boolean): number => fits.filter(which).length;
    const failing = count(({ verdict }) => verdict === 'will not fit');
    const unknown = count(({ verdict, joint }) => verdict === 'not known' || (verdict !== 'will not fit' && doubtful.has(joint)));
    const choosing = count(({ verdict, joint }) => verdict === 'after work' && !doubtful.has(joint));
    ways.push({ works, failing, unknown, open: unknown + choosing });
    joints.forEach(({ joint, slots, a, b }, i) => {
      if (fits[i]?.verdict !== 'will not fit' && fits[i]?.verdict !== 'after work') return;
      const here = (atlas.data.operations ?? []).filter(({ slot }) => slot === slots.a || slot === slots.b);
      for (const plan of planWork(joint, slots, a, b, here, { inHand: facts }).plans) {
        const features = plan.works.flatMap(({ changes }) => changes.map(({ feature }) => feature));
        const worked = works.some(({ changes }) => changes.some(({ feature }) => features.includes(feature)));
        if (worked || works.length + plan.works.length > most) continue;
        const made = new Map<FeatureId, Known>(facts);
        for (const { feature, fact } of plan.works.flatMap(({ changes }) => changes)) made.set(feature, fact);
        visit([...works, ...plan.works], made, plan.allowed === 'holds' ? doubtful : new Set([...doubtful, joint.id]));
      }
    });
  };
  visit([], inHand, new Set());
  return ways;
};

const accepted = ({ failing, unknown, open }: Way, mayLeave: NonNullable<BuildConstraints['mayLeave']>): boolean => {
  switch (mayLeave) {
    case 'nothing':
      return failing === 0 && open === 0;
    case 'measuring':
      return failing === 0 && unknown === 0;
    case 'unknowns':
      return failing === 0;
  }
};

const beats = (one: WeighedBuild, other: WeighedBuild): boolean => noWorse(one, other) && !noWorse(other, one);

const noWorse = (one: WeighedBuild, other: WeighedBuild): boolean =>
  one.hours <= other.hours &&
  (one.cost ?? 0) <= (other.cost ?? 0) &&
  one.operations <= other.operations &&
  one.rank <= other.rank &&
  one.open <= other.open &&
  one.unpriced.every((part) => other.unpriced.includes(part));
