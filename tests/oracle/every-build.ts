import type { BuildCase } from './random-build.ts';
import {
  agrees,
  type CompiledAtlas,
  type FeatureId,
  type FitVerdict,
  judgeChain,
  judgeJoint,
  type Known,
  type PartId,
  planBuild,
  planWork,
  rankOf,
  type Sheet,
  type SlotId,
  type Work,
} from './reasoner-within.ts';

/** One way to fill the start and to work on its parts, with what it is weighed by. */
export interface EveryBuild {
  readonly chosen: Readonly<Record<SlotId, PartId>>;
  readonly hours: number;
  readonly cost: number;
  readonly unpriced: readonly PartId[];
  readonly works: number;
  readonly rank: number;
  readonly open: number;
}

/** Every build within the constraints, found by trying everything: every part in every slot, every order of works at every joint. */
export const everyBuild = (atlas: CompiledAtlas, { sheet, constraints }: BuildCase): EveryBuild[] => {
  const { slots, parts, operations = [], chains = [], rates = [] } = atlas.data;
  const stock = new Set(constraints.stock);
  const [prices] = rates;
  let fillings: Record<SlotId, PartId>[] = [{ ...sheet.chosen }];
  for (const slot of slots) {
    if (sheet.chosen[slot.id] !== undefined || sheet.absent.includes(slot.id) || slot.group === 'plate') continue;
    const may = parts.filter(
      (part) =>
        part.slot === slot.id &&
        (constraints.maker === undefined || part.maker === constraints.maker) &&
        (constraints.onlyStock !== true || stock.has(part.id)) &&
        (constraints.require ?? []).every((each) => {
          const feature = atlas.features.get(each.feature);
          const fact = part.facts[each.feature];
          return (
            each.slot !== slot.id ||
            (feature !== undefined &&
              fact !== undefined &&
              agrees(feature, fact, { value: each.value, sure: { kind: 'seen' } }) === 'holds')
          );
        }),
    );
    fillings = fillings.flatMap((filling) => may.map((part) => ({ ...filling, [slot.id]: part.id })));
  }
  const allowed = (verdict: FitVerdict): boolean =>
    verdict === 'drops in' ||
    (verdict === 'after work' && (constraints.mayLeave ?? 'nothing') !== 'nothing') ||
    (verdict === 'not known' && constraints.mayLeave === 'unknowns');
  return fillings.flatMap((chosen): EveryBuild[] => {
    const plan = planBuild(atlas, { ...sheet, chosen } as Sheet);
    if (plan.kind !== 'plan') throw new Error('a start without observations contradicts itself');
    if (constraints.keep !== undefined && plan.names.find(({ name }) => name.id === constraints.keep)?.status !== 'stands') return [];
    const [best] = plan.names.filter(({ name }) => name.id === plan.honest[0]);
    if (best === undefined) throw new Error('no name stands');
    const partIn = (slot: SlotId | undefined) => (slot === undefined ? undefined : atlas.parts.get(chosen[slot] as PartId));
    const joints = atlas.joints.flatMap(({ data: joint, a, b }) => {
      const ends = { a: slots[a]?.id as SlotId, b: slots[b]?.id as SlotId };
      const [one, other] = [partIn(ends.a), partIn(ends.b)];
      return one && other ? [{ joint, ends, one, other }] : [];
    });
    const added = Object.entries(chosen).filter(([slot, part]) => sheet.chosen[slot as SlotId] === undefined && !stock.has(part));
    const price = (part: PartId): number | undefined => prices?.parts.find((each) => each.part === part)?.price;
    const found: EveryBuild[] = [];
    const visit = (works: readonly Work[], facts: ReadonlyMap<FeatureId, Known>, doubtful: ReadonlySet<string>): void => {
      const fits = joints.map(({ joint, ends, one, other }) => judgeJoint(joint, ends, one, other, facts));
      const verdicts = fits.map(({ joint, verdict }) => (doubtful.has(joint) && verdict !== 'will not fit' ? 'not known' : verdict));
      for (const chain of chains) {
        const known = chain.links.every(({ feature }) => partIn(atlas.features.get(feature)?.slot) !== undefined);
        if (!known) continue;
        verdicts.push(
          judgeChain(chain, (feature) => facts.get(feature) ?? partIn(atlas.features.get(feature)?.slot)?.facts[feature]).verdict,
        );
      }
      if (verdicts.every(allowed) && works.length <= (constraints.atMost ?? Number.POSITIVE_INFINITY)) {
        const hours = works.reduce((sum, work) => sum + work.hours, 0);
        found.push({
          chosen,
          hours,
          cost: hours * (prices?.hour ?? 0) + added.reduce((sum, [, part]) => sum + (price(part) ?? 0), 0),
          unpriced: added.map(([, part]) => part).filter((part) => price(part) === undefined),
          works: works.length,
          rank: rankOf(best.name),
          open: verdicts.filter((verdict) => verdict !== 'drops in').length,
        });
      }
      const changed = new Set(works.flatMap(({ changes }) => changes.map(({ feature }) => feature)));
      for (const [i, { joint, ends, one, other }] of joints.entries()) {
        if (fits[i]?.verdict === 'drops in' || fits[i]?.verdict === 'not known') continue;
        const most = Math.min(3, constraints.atMost ?? 3);
        for (const way of planWork(joint, ends, one, other, operations, { inHand: facts, atMost: most }).plans) {
          if (way.works.some(({ changes }) => changes.some(({ feature }) => changed.has(feature)))) continue;
          const made = new Map(facts);
          for (const { feature, fact } of way.works.flatMap(({ changes }) => changes)) made.set(feature, fact);
          visit([...works, ...way.works], made, way.allowed === 'holds' ? doubtful : new Set([...doubtful, joint.id]));
        }
      }
    };
    visit([], new Map(), new Set());
    return found;
  });
};

/** Those no other is at least as good as in everything and better than in something. */
export const undominated = (builds: readonly EveryBuild[]): EveryBuild[] =>
  builds.filter((build) => !builds.some((other) => asGood(other, build) && !asGood(build, other)));

const asGood = (a: EveryBuild, b: EveryBuild): boolean =>
  a.hours <= b.hours &&
  a.cost <= b.cost &&
  a.works <= b.works &&
  a.rank <= b.rank &&
  a.open <= b.open &&
  a.unpriced.every((part) => b.unpriced.includes(part));

/** A build as one line, so that two lists can be compared whatever their order. */
export const lineOf = ({ chosen, hours, cost, works, rank, open }: Omit<EveryBuild, 'unpriced'>): string =>
  `${Object.entries(chosen)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([slot, part]) => `${slot}=${part}`)
    .join(' ')} | ${hours} h, ${cost} crowns, ${works} works, rank ${rank}, open ${open}`;
