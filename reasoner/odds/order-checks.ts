import type { CompiledAtlas } from '../atlas/compile.ts';
import type { StageId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { stagesFor, stripDownMinutes } from '../why/strip-down.ts';
import type { Check } from './odds.ts';
import type { Weighed } from './weigh-checks.ts';

/** Less than this tells nothing worth a look, bits. */
const tellsNothing = 1e-6;

/** What rounding alone tells apart ranks alike: ten figures. */
export const toRank = (value: number): number => Number(value.toPrecision(10));

/** Stages the unit has been taken to: those its observations were made at, with what each needs before it; and those that take no strip-down at all. */
export const reachedBy = (atlas: CompiledAtlas, sheet: Sheet): ReadonlySet<StageId> =>
  stagesFor(atlas, [
    ...atlas.atlas.stages.flatMap(({ id }) => (stripDownMinutes(atlas, [id]) === 0 ? [id] : [])),
    ...sheet.observations.flatMap(({ sure, feature }) => {
      const stage = sure.kind === 'told' ? undefined : atlas.features.get(feature)?.stage;
      return stage === undefined ? [] : [stage];
    }),
  ]);

/** Stages the unit may not be taken to. */
export const stagesBarred = (atlas: CompiledAtlas, sheet: Sheet): ReadonlySet<StageId> => barredBy(atlas, sheet, reachedBy(atlas, sheet));

/** Stages still to be reached for a look at this one, in the atlas's order. */
export const openingOf = (atlas: CompiledAtlas, sheet: Sheet, stage: StageId): StageId[] => {
  const [needed, reached] = [stagesFor(atlas, [stage]), reachedBy(atlas, sheet)];
  return atlas.atlas.stages.flatMap(({ id }) => (needed.has(id) && !reached.has(id) ? [id] : []));
};

/** Those of features said not to be opened, and all that come after them. */
const barredBy = (atlas: CompiledAtlas, sheet: Sheet, reached: ReadonlySet<StageId>): ReadonlySet<StageId> => {
  const refused = (sheet.unseen ?? []).flatMap(({ feature, why }) => {
    const stage = why === 'may not be opened' ? atlas.features.get(feature)?.stage : undefined;
    return stage === undefined || reached.has(stage) ? [] : [stage];
  });
  return new Set(
    atlas.atlas.stages.flatMap(({ id }) => {
      const needed = stagesFor(atlas, [id]);
      return refused.some((stage) => needed.has(stage)) ? [id] : [];
    }),
  );
};

/**
 * The checks in the order of expected drop per minute (Q1). Minutes are those of the check and its share of the strip-down still needed. An opening is shared
 * by all the checks it makes possible, in proportion to what each would tell; together they can tell no more than is uncertain, so the
 * share is drop / min(Σ drops, bits).
 */
export const orderChecks = (atlas: CompiledAtlas, sheet: Sheet, weighed: readonly Weighed[], bits: number): Check[] => {
  const reached = reachedBy(atlas, sheet);
  const barred = barredBy(atlas, sheet, reached);
  const openings = new Map(
    atlas.atlas.stages.map(({ id }) => [id, new Set([...stagesFor(atlas, [id])].filter((stage) => !reached.has(stage)))] as const),
  );
  const telling = weighed.filter(({ feature, drop }) => drop > tellsNothing && !barred.has(feature.stage));
  /** By stage: what the checks made possible by opening it would tell, added up. */
  const together = new Map(
    [...openings].map(([stage, opening]) => [
      stage,
      telling.reduce((sum, { feature, drop }) => {
        const own = openings.get(feature.stage) as ReadonlySet<StageId>;
        return own.size > 0 && [...own].every((each) => opening.has(each)) ? sum + drop : sum;
      }, 0),
    ]),
  );
  return telling
    .map(({ feature, slot, again, drop }): Check => {
      const opening = openings.get(feature.stage) as ReadonlySet<StageId>;
      const openingMinutes = [...opening].reduce((sum, stage) => sum + (atlas.stages.get(stage)?.minutes ?? 0), 0);
      const shared = Math.min(together.get(feature.stage) as number, Math.max(bits, drop));
      const openingShare = openingMinutes === 0 ? 0 : (openingMinutes * drop) / shared;
      return {
        slot: slot.slot.id,
        feature: feature.id,
        again,
        drop,
        minutes: feature.minutes,
        opening: atlas.atlas.stages.flatMap(({ id }) => (opening.has(id) ? [id] : [])),
        openingMinutes,
        openingShare,
        rate: drop / Math.max(feature.minutes + openingShare, 1 / 60),
      };
    })
    .map((check) => ({ check, rate: toRank(check.rate), drop: toRank(check.drop) }))
    .sort((a, b) => b.rate - a.rate || b.drop - a.drop || (a.check.feature < b.check.feature ? -1 : 1))
    .map(({ check }) => check);
};
