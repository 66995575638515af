import type { Fact } from '../atlas/atlas.ts';
import type { OperationId } from '../atlas/operation.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { isPlate } from '../compile/is-plate.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { FitPoint, FitVerdict } from '../fits/fit.ts';
import type { FinishedSize } from '../fits/work/work.ts';
import type { FeatureId, PartId, SlotId } from '../ids.ts';
import { onlyMaker } from '../plain/only-maker.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { every, type Truth } from '../truth.ts';
import { factsPhrase } from '../words/phrases.ts';
import { inPence } from './cost.ts';
import type { JointPlan, Plan, SlotPlan } from './plan.ts';
import { type Whence, whenceOf } from './whence.ts';

export interface PlannedSheet {
  readonly sheet: Sheet;
  readonly plan: Plan;
}

/** Two builds or more side by side. Cells stand in the order the builds were given. */
export interface ComparedBuilds {
  /** What differs first, then what is not known to differ, then what is the same; each in the order of groups. */
  readonly rows: readonly BuildsRow[];
  readonly differences: number;
  readonly notKnown: number;
  /** F5: every caution of any of them, said once, with the places of the builds it goes with; those of all first. */
  readonly cautions: readonly { readonly text: string; readonly of: readonly number[] }[];
}

export type BuildsGroup = 'the whole' | 'parts' | 'joints' | 'stacks of lengths' | 'cost' | 'sizes and looks';

export interface BuildsRow {
  readonly group: BuildsGroup;
  /** `compressor wheel`, `compressor wheel’s exducer diameter`, `hours`. */
  readonly what: string;
  readonly slot: SlotId | null;
  readonly feature: FeatureId | null;
  /** Whether all say the same. One sure difference decides; what is not known is neither same nor different. */
  readonly same: Truth;
  readonly cells: readonly BuildsCell[];
  /** Cells of one number are the same; null: not known. */
  readonly alike: readonly (number | null)[];
  /** Of sums: the places that are surely no more than any other, where some other is more. */
  readonly least: readonly number[];
}

/** What is done to a part for a joint: sizes in mm, hours. `missing` has to be measured first, since the metal may not allow it. */
export interface ComparedWork {
  readonly operation: OperationId;
  readonly name: string;
  readonly slot: SlotId;
  readonly sizes: readonly Pick<FinishedSize, 'feature' | 'nominal' | 'lower' | 'upper' | 'removes'>[];
  readonly missing: readonly FeatureId[];
  readonly hours: number;
}

export type BuildsCell =
  | { readonly kind: 'nothing' }
  /** Not known, and why. */
  | { readonly kind: 'open'; readonly why: 'not chosen yet' | 'waits for a part' | 'not known' | 'no rates' }
  | { readonly kind: 'texts'; readonly texts: readonly string[] }
  /** `from`: whether it has to be bought; null where it is not known what is in stock. `price`: of one, null where it is not known. */
  | {
      readonly kind: 'part';
      readonly part: PartId;
      readonly text: string;
      readonly stranger: boolean;
      readonly from: Whence | null;
      readonly price: number | null;
      readonly money: string | null;
    }
  | {
      readonly kind: 'fit';
      readonly verdict: FitVerdict;
      readonly works: readonly ComparedWork[];
      /** What decides it where no work does and it does not simply drop in, lengths in mm. */
      readonly point: Pick<FitPoint, 'what' | 'features' | 'found' | 'asked' | 'share'> | null;
      /** Dimensions that would have to be known. */
      readonly missing: readonly FeatureId[];
      /** Of the whole: some of its joints still wait for a part. */
      readonly soFar: boolean;
    }
  | { readonly kind: 'fact'; readonly fact: Fact }
  | ({ readonly kind: 'hours' } & BuildsSum)
  | ({ readonly kind: 'count' } & BuildsSum)
  | ({ readonly kind: 'money'; readonly money: string } & BuildsSum);

/** What is known of a sum: the whole of it only where nothing is left open. */
export interface BuildsSum {
  readonly amount: number;
  /** Parts whose price comes on top. */
  readonly without: readonly PartId[];
  /** A slot is not chosen yet, or a joint not known: nobody can say what more it takes. */
  readonly open: boolean;
}

export interface CompareOptions {
  /** False: what is in stock could not be told. Every part may then have to be bought or not. */
  readonly stockKnown?: boolean;
}

/** Several builds on paper (F4): what each may be called, part by part, joint by joint, and what they cost. */
export const compareBuilds = (
  atlas: CompiledAtlas,
  builds: readonly PlannedSheet[],
  { stockKnown = true }: CompareOptions = {},
): ComparedBuilds => {
  const plans = builds.map(({ plan }) => plan);
  const sum = (plan: Plan, amount = 0): BuildsSum => ({ amount, without: [], open: isOpen(atlas, plan) });
  const row = (group: BuildsGroup, what: string, cell: (plan: Plan) => BuildsCell, of: Partial<BuildsRow> = {}): BuildsRow =>
    rowOf(group, what, plans.map(cell), of);
  const rows: BuildsRow[] = [
    row('the whole', 'may be called', honest),
    row('the whole', 'goes together', (plan) => ({ ...plainFit(plan.verdict), soFar: plan.waiting.length > 0 })),
    row('the whole', 'total', (plan) => total(plan, sum(plan), stockKnown)),
    row('the whole', 'hours of machining', (plan) => ({ kind: 'hours', ...sum(plan, plan.cost.hours) })),
    ...atlas.slots.map(({ data: slot }, i) =>
      row('parts', slot.name, (plan) => partCell(atlas, plan, plan.slots[i] as SlotPlan, stockKnown), { slot: slot.id }),
    ),
    ...atlas.joints.map(({ data: joint }) =>
      row('joints', joint.name, (plan) => {
        const judged = plan.joints.find((each) => each.joint === joint.id);
        return judged === undefined ? waits : jointCell(atlas, plan, judged);
      }),
    ),
    ...(atlas.data.chains ?? []).map((chain) =>
      row('stacks of lengths', chain.name, (plan) => {
        const judged = plan.chains.find((each) => each.chain === chain.id);
        return judged === undefined ? waits : { ...plainFit(judged.after.verdict), missing: judged.after.missing };
      }),
    ),
    row('cost', 'operations', (plan) => ({ kind: 'count', ...sum(plan, plan.works.length) })),
    row('cost', 'machining', (plan) =>
      plan.cost.labour === null || plan.cost.money === null
        ? noRates
        : { kind: 'money', money: plan.cost.money, ...sum(plan, plan.cost.labour) },
    ),
    row('cost', 'parts to buy', (plan) => (stockKnown ? { kind: 'count', ...sum(plan, plan.cost.parts.length) } : notKnown)),
    row('cost', 'parts without a price', (plan) =>
      plan.cost.rates === null ? noRates : { kind: 'count', ...sum(plan, plan.cost.unpriced.length) },
    ),
    ...atlas.slots.flatMap(({ data: slot }, i) => (slot.group === 'plate' ? [] : factRows(atlas, plans, slot.id, i))),
  ];
  const kept = rows.filter(({ cells }) => cells.some(({ kind }) => kind !== 'nothing'));
  const [different, open, alike] = (['fails', 'not known', 'holds'] as const).map((truth) => kept.filter(({ same }) => same === truth));
  return {
    rows: [...(different ?? []), ...(open ?? []), ...(alike ?? [])],
    differences: different?.length ?? 0,
    notKnown: open?.length ?? 0,
    cautions: cautionsOf(plans),
  };
};

const cautionsOf = (plans: readonly Plan[]): ComparedBuilds['cautions'] => {
  const all = [...new Set(plans.flatMap(({ cautions }) => cautions))].map((text) => ({
    text,
    of: plans.flatMap(({ cautions }, i) => (cautions.includes(text) ? [i] : [])),
  }));
  return [...all.filter(({ of }) => of.length === plans.length), ...all.filter(({ of }) => of.length < plans.length)];
};

const nothing: BuildsCell = { kind: 'nothing' };
const waits: BuildsCell = { kind: 'open', why: 'waits for a part' };
const notKnown: BuildsCell = { kind: 'open', why: 'not known' };
const noRates: BuildsCell = { kind: 'open', why: 'no rates' };

const texts = (of: readonly string[]): BuildsCell => (of.length === 0 ? nothing : { kind: 'texts', texts: of });

const plainFit = (verdict: FitVerdict) => ({ kind: 'fit', verdict, works: [], point: null, missing: [], soFar: false }) as const;

const honest = (plan: Plan): BuildsCell =>
  texts(plan.names.filter(({ name }) => plan.honest.includes(name.id)).map(({ name }) => name.text));

const partCell = (atlas: CompiledAtlas, plan: Plan, { slot, part, text, absent, stranger }: SlotPlan, stockKnown: boolean): BuildsCell => {
  const plate = isPlate(atlas, slot);
  if (part === null || text === null) {
    if (plate && !absent) return texts([onlyMaker]);
    return absent ? nothing : { kind: 'open', why: 'not chosen yet' };
  }
  return {
    kind: 'part',
    part,
    text,
    stranger,
    from: stockKnown || plate ? whenceOf(atlas, plan, slot, part) : null,
    price: plan.cost.parts.find((one) => one.part === part)?.price ?? null,
    money: plan.cost.money,
  };
};

const jointCell = (atlas: CompiledAtlas, plan: Plan, { verdict, works, after, fit, plans }: JointPlan): BuildsCell => {
  const done = works.flatMap((index): ComparedWork[] => {
    const work = plan.works[index];
    if (work === undefined) return [];
    const name = atlas.data.operations?.find(({ id }) => id === work.operation)?.name ?? work.operation;
    const sizes = work.sizes.map(({ feature, nominal, lower, upper, removes }) => ({ feature, nominal, lower, upper, removes }));
    return [{ operation: work.operation, name, slot: work.slot, sizes, missing: work.missing, hours: work.hours }];
  });
  const decided = verdict === 'drops in' || verdict === 'not known' || done.length > 0;
  const point = decided ? undefined : after.findings.flatMap(({ points }) => points).find((each) => each.verdict === after.verdict);
  const missing = verdict === 'not known' ? [...after.findings, ...fit.findings, ...plans].flatMap((each) => each.missing) : [];
  return {
    kind: 'fit',
    verdict,
    works: done,
    point:
      point === undefined
        ? null
        : {
            what: point.what,
            features: point.features,
            ...(point.found === undefined ? {} : { found: point.found }),
            ...(point.asked === undefined ? {} : { asked: point.asked }),
            ...(point.share === undefined ? {} : { share: point.share }),
          },
    missing: [...new Set(missing)],
    soFar: false,
  };
};

const isOpen = (atlas: CompiledAtlas, { slots, joints }: Plan): boolean =>
  joints.some(({ verdict }) => verdict === 'not known') ||
  slots.some(({ part, absent }, i) => part === null && !absent && atlas.slots[i]?.data.group !== 'plate');

const total = ({ cost }: Plan, sum: BuildsSum, stockKnown: boolean): BuildsCell => {
  if (cost.atLeast === null || cost.labour === null || cost.money === null) return noRates;
  const known = stockKnown
    ? { amount: cost.atLeast, without: cost.unpriced }
    : { amount: cost.labour, without: cost.parts.map(({ part }) => part) };
  return { ...sum, kind: 'money', money: cost.money, ...known };
};

/** What the atlas says of the parts of one slot, feature by feature, where not all builds have the same part. */
const factRows = (atlas: CompiledAtlas, plans: readonly Plan[], slot: SlotId, at: number): BuildsRow[] => {
  const parts = plans.map(({ slots }) => slots[at]?.part ?? null);
  if (new Set(parts.filter((part) => part !== null)).size < 2) return [];
  return atlas.data.features.flatMap((feature) => {
    if (feature.slot !== slot) return [];
    const facts = parts.map((part) => (part === null ? null : (atlas.parts.get(part)?.facts[feature.id] ?? null)));
    if (facts.every((fact) => fact === null || fact.kind === 'not known')) return [];
    const cells = facts.map((fact, i): BuildsCell => {
      if (fact !== null && fact.kind !== 'not known') return { kind: 'fact', fact };
      return parts[i] !== null ? notKnown : plans[i]?.slots[at]?.absent ? nothing : { kind: 'open', why: 'not chosen yet' };
    });
    const key = (cell: BuildsCell): string | null => (cell.kind === 'fact' ? factsPhrase(feature, [cell.fact]) : keyOf(cell));
    return [rowOf('sizes and looks', `${slotNameOf(atlas, slot)}’s ${feature.name}`, cells, { slot, feature: feature.id }, key)];
  });
};

const rowOf = (
  group: BuildsGroup,
  what: string,
  cells: readonly BuildsCell[],
  of: Partial<BuildsRow>,
  key: (cell: BuildsCell) => string | null = keyOf,
): BuildsRow => {
  const same = (a: BuildsCell, b: BuildsCell): Truth => sameOf(a, b, key);
  const alike = cells.map((cell) => (same(cell, cell) === 'holds' ? cells.findIndex((other) => same(cell, other) === 'holds') : null));
  return {
    group,
    what,
    slot: null,
    feature: null,
    same: every(cells.flatMap((cell, i) => cells.slice(i + 1).map((other) => same(cell, other)))),
    cells,
    alike,
    least: leastOf(cells),
    ...of,
  };
};

/** All a cell says, as one text; null where something of it is not known. */
const keyOf = (cell: BuildsCell): string | null => {
  if (cell.kind === 'open') return null;
  if (cell.kind === 'fit' && (cell.verdict === 'not known' || (cell.soFar && cell.verdict !== 'will not fit'))) return null;
  return JSON.stringify(cell);
};

const sameOf = (a: BuildsCell, b: BuildsCell, key: (cell: BuildsCell) => string | null): Truth => {
  if (isSum(a) && isSum(b)) {
    const [byA, byB] = [surplus(a, b), surplus(b, a)];
    if (byA !== null && byB !== null) return byA === 0 ? 'holds' : 'fails';
    return (byA ?? byB ?? 0) > 0 ? 'fails' : 'not known';
  }
  const [one, other] = [key(a), key(b)];
  return one === null || other === null ? 'not known' : one === other ? 'holds' : 'fails';
};

type Sum = Extract<BuildsCell, BuildsSum>;

const isSum = (cell: BuildsCell): cell is Sum => 'amount' in cell;

/**
 * By how much the one is at least more than the other (below 0: it may be less by so much). Prices that both lack cancel out; what only the first lacks, or leaves open,
 * can make it greater and never less. Null: cannot be told, since the other lacks or leaves open what the first does not.
 */
const surplus = (one: Sum, other: Sum): number | null =>
  !other.open && other.without.every((part) => one.without.includes(part)) ? inPence(one.amount - other.amount) : null;

const leastOf = (cells: readonly BuildsCell[]): number[] => {
  const least = cells.flatMap((cell, i) =>
    isSum(cell) && cells.every((other) => other === cell || (isSum(other) && (surplus(other, cell) ?? -1) >= 0)) ? [i] : [],
  );
  return least.length === cells.length ? [] : least;
};
