import type { Check } from '../answer/odds.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { StageId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { stagesFor, stripDownMinutes } from '../why/strip-down.ts';
import type { Weighed } from './weigh-checks.ts';

/** Less than this tells nothing worth a look, bits. */
const tellsNothing = 1e-6;

/** What rounding alone tells apart ranks alike: ten figures. */
export const toRank = (value: number): number => Number(value.toPrecision(10));

/** Stages the unit has been taken to: those its observations were made at, with what each needs before it; and those that take no strip-down at all. */
export const reachedBy = (atlas: CompiledAtlas, sheet: Sheet): ReadonlySet<StageId> =>
  stagesFor(atlas, [
    ...atlas.data.stages.flatMap(({ id }) => (stripDownMinutes(atlas, [id]) === 0 ? [id] : [])),
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
  return atlas.data.stages.flatMap(({ id }) => (needed.has(id) && !reached.has(id) ? [id] : []));
};

/** Those of features said not to be opened, and all that come after them. */
const barredBy = (atlas: CompiledAtlas, sheet: Sheet, reached: ReadonlySet<StageId>): ReadonlySet<StageId> => {
  const refused = (sheet.unseen ?? []).flatMap(({ feature, why }) => {
    const stage = why === 'may not be opened' ? atlas.features.get(feature)?.stage : undefined;
    return stage === undefined || reached.has(stage) ? [] : [stage];
  });
  return new Set(
    atlas.data.stages.flatMap(({ id }) => {
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
  const telling = weighed.filter(({ feature, drop }) => drop > tellsNothing && !barred.has(feature.stage));
  const openings = openingsOf(atlas, reached, telling);
  return telling
    .map((one) => checkOf(one, openings, bits))
    .map((check) => ({ check, rate: toRank(check.rate), drop: toRank(check.drop) }))
    .sort((a, b) => b.rate - a.rate || b.drop - a.drop || (a.check.feature < b.check.feature ? -1 : 1))
    .map(({ check }) => check);
};

/** A check that tells too little to have a place in the order, with all its opening laid to it. */
export const checkBeside = (atlas: CompiledAtlas, sheet: Sheet, one: Weighed, bits: number): Check =>
  checkOf(one, openingsOf(atlas, reachedBy(atlas, sheet), [one]), bits);

const checkOf = ({ feature, slot, again, drop }: Weighed, openings: ReadonlyMap<StageId, Opening>, bits: number): Check => {
  const { opening, minutes: openingMinutes, together } = openings.get(feature.stage) as Opening;
  const shared = Math.min(together, Math.max(bits, drop));
  const openingShare = openingMinutes === 0 ? 0 : shared > 0 ? (openingMinutes * drop) / shared : openingMinutes;
  return {
    slot: slot.data.id,
    feature: feature.id,
    again,
    drop,
    minutes: feature.minutes,
    opening,
    openingMinutes,
    openingShare,
    rate: drop / Math.max(feature.minutes + openingShare, 1 / 60),
  };
};

/** What a look at a stage still takes. */
interface Opening {
  /** Stages still to be reached, in the atlas's order. */
  readonly opening: readonly StageId[];
  readonly minutes: number;
  /** What the checks made possible by opening it would tell, added up. */
  readonly together: number;
}

const openingsOf = (atlas: CompiledAtlas, reached: ReadonlySet<StageId>, telling: readonly Weighed[]): ReadonlyMap<StageId, Opening> => {
  const { stages } = atlas.data;
  const drops = new Map<StageId, number>();
  for (const { feature, drop } of telling) drops.set(feature.stage, (drops.get(feature.stage) ?? 0) + drop);
  const opening = new Map(
    stages.map(({ id }) => {
      const needed = stagesFor(atlas, [id]);
      return [id, stages.map((stage) => stage.id).filter((stage) => needed.has(stage) && !reached.has(stage))] as const;
    }),
  );
  const within = (own: readonly StageId[], all: readonly StageId[]): boolean => own.length > 0 && own.every((stage) => all.includes(stage));
  return new Map(
    [...opening].map(([id, own]) => [
      id,
      {
        opening: own,
        minutes: own.reduce((sum, stage) => sum + (atlas.stages.get(stage)?.minutes ?? 0), 0),
        together: [...opening].reduce((sum, [stage, each]) => (within(each, own) ? sum + (drops.get(stage) ?? 0) : sum), 0),
      },
    ]),
  );
};
