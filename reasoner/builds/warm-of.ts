import type { Metal, WarmSide, Warmth } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { comparisonsOf, type Difference } from '../fits/comparisons.ts';
import type { InHand } from '../fits/judge-joint.ts';
import { judgeComparison } from '../fits/judge-rule.ts';
import { type FactOf, known } from '../fits/known.ts';
import { limitsOf, millimetres, type Size } from '../fits/limits.ts';
import { type Spinning, type Warmed, warmClearance } from '../fits/warm.ts';
import type { FeatureId, SlotId } from '../ids.ts';
import { capital, featurePhrase, list, size } from './build-words.ts';
import type { WarmPoint } from './plan.ts';
import type { BuildJoint } from './work-sets.ts';

/** Every clearance of a joint in service, beside the cold one. No verdict rests on it (SPEC, Work). */
export const warmPointsOf = (atlas: CompiledAtlas, { joint, a, b }: BuildJoint, facts: InHand): WarmPoint[] => {
  const factOf: FactOf = (feature) => facts.get(feature) ?? a.facts[feature] ?? b.facts[feature];
  return (atlas.data.warmth ?? [])
    .filter((warmth) => warmth.joint === joint.id)
    .flatMap((warmth) =>
      joint.rules
        .flatMap(comparisonsOf)
        .flatMap((comparison) => (comparison.kind === 'difference' ? [warmPoint(atlas, warmth, comparison, factOf)] : [])),
    );
};

const warmPoint = (atlas: CompiledAtlas, warmth: Warmth, comparison: Difference, factOf: FactOf): WarmPoint => {
  const { first, second, per } = comparison;
  const features = [first, second];
  const missing: FeatureId[] = [];
  const [outer, inner] = [first, second].map((feature) =>
    side(atlas, warmth, feature, factOf, comparison.what !== 'axial clearance', missing),
  ) as [Side | null, Side | null];
  const point = judgeComparison(comparison, factOf);
  const what = `${capital(comparison.what)} of ${featurePhrase(atlas, first)} and ${featurePhrase(atlas, second)}`;
  if (outer === null || inner === null || point.found === undefined) {
    const unknown = [...new Set([...point.missing, ...missing])];
    const why =
      unknown.length === 0
        ? 'the atlas has no figures for a metal'
        : `${list(unknown.map((feature) => featurePhrase(atlas, feature)))} not known`;
    return { features, clearance: null, missing: unknown, sentence: `${what} warm: not known (${why}).` };
  }
  // A clearance is outer less inner; an interference is the shaft less its bore, and only the sign differs.
  const clearance = warmClearance(point.found, per, outer.warmed, inner.warmed, inner.spinning);
  const growth = clearance.growth === null ? '' : ` and growth at speed`;
  return {
    features,
    clearance,
    missing: [],
    sentence: `${what}: cold ${size(clearance.cold.least)} to ${size(clearance.cold.greatest)} mm, warm about ${size(clearance.warm.least)} to ${size(clearance.warm.greatest)} mm by expansion${growth} (an estimate).`,
  };
};

interface Side {
  readonly warmed: Warmed;
  readonly spinning?: Spinning;
}

const side = (
  atlas: CompiledAtlas,
  warmth: Warmth,
  feature: FeatureId,
  factOf: FactOf,
  /** Sizes across the axis grow with speed too; widths along it are taken not to. */
  across: boolean,
  missing: FeatureId[],
): Side | null => {
  const slot = atlas.features.get(feature)?.slot as SlotId;
  const said: WarmSide | undefined = warmth.sides.find((each) => each.slot === slot);
  const of = known(factOf, feature, 'measure');
  if (said === undefined || of === null) return null;
  const metal = metalOf(atlas, said, factOf);
  if (metal === null) {
    missing.push(said.metal);
    return null;
  }
  const diameter = middleOf(of);
  const warmed = { diameter, expansion: metal.expansion * 1e-6, rise: said.rise };
  if (said.turns === undefined || metal.disc === undefined || !across) return { warmed };
  const { speed, bore } = said.turns;
  if (bore === undefined) return { warmed, spinning: { speed, diameter, bore: 0, ...metal.disc } };
  const hole = known(factOf, bore, 'measure');
  if (hole === null) {
    missing.push(bore);
    return null;
  }
  return { warmed, spinning: { speed, diameter, bore: middleOf(hole), ...metal.disc } };
};

const middleOf = (of: Size): number => {
  const limits = limitsOf(of);
  return millimetres((limits.low + limits.high) / 2);
};

/** The one metal a part is of; null where that is not known or may be one of several. */
const metalOf = (atlas: CompiledAtlas, { metal }: WarmSide, factOf: FactOf): Metal | null => {
  const fact = known(factOf, metal, 'choice');
  if (fact?.anyOf.length !== 1) return null;
  return atlas.data.metals?.find(({ id }) => id === fact.anyOf[0]) ?? null;
};
