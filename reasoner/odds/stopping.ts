import { type Assumptions, startingAssumptions } from '../answer/assumptions.ts';
import type { Status } from '../answer/verdict.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { FeatureId, NameId, SlotId } from '../ids.ts';
import { ladderOf } from '../names/ladder.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { unitOf } from '../unit/unit.ts';
import { contradictionsIn } from '../verdict/answer.ts';
import { howToTake } from '../words/check-words.ts';
import { goOnSentence, notSettledSentence, stopSentence } from '../words/stop-sentence.ts';
import { type Asked, type Course, coursesOf } from './courses.ts';
import { groundOf } from './ground.ts';
import { weighingOf } from './odds-of.ts';
import { openingOf, stagesBarred } from './order-checks.ts';
import { type Said, saidOf, sameSaid } from './said.ts';
import { tellingOf } from './tell-apart.ts';
import { askable } from './weigh-checks.ts';

/** Whether the checks not made yet could still change the honest name or the claim (Q1). */
export type Stopping = { readonly sentence: string } & (
  | { readonly kind: 'you may stop' }
  | {
      /** Of the checks in their order, the first that has a part in it. */
      readonly kind: 'go on';
      readonly slot: SlotId;
      readonly feature: FeatureId;
      readonly how: string;
      /** What readings of remaining parts, all checks made, could leave. */
      readonly honest: readonly { readonly name: NameId; readonly text: string }[];
      readonly claim: Status | null;
    }
  /** Readings that might change them are left, and so many verdicts found none that does. */
  | { readonly kind: 'not settled'; readonly judged: number }
);

/** Verdicts asked for, at most: each is a ladder of all names. */
export const mostJudged = 60;

/**
 * Asks what the unit could come to be called if every check not made yet were made, and read as parts that remain in the slots would read (listed ones: what only an unlisted part could read can never
 * be excluded). First it is bounded which names could come to stand and which claims could fall, by what the checks can tell apart; then, for each, readings are put together that should do it, and the verdict
 * is asked. Null when the sheet contradicts itself. @throws RangeError as `oddsOf`
 */
export const mayStop = (
  atlas: CompiledAtlas,
  sheet: Sheet,
  assumptions: Assumptions = startingAssumptions,
  most = mostJudged,
): Stopping | null => {
  if (contradictionsIn(atlas, sheet)) return null;
  const asked = askedOf(atlas, sheet, assumptions);
  const now = saidOf(asked.unit, asked.possible);
  let judged = 0;
  if (asked.rank.size === 0) return youMayStop(atlas, now, false);
  // A plate whose number is not listed may yet be read as any of its maker's: what its other readings would come to is not bounded.
  let unproven = asked.unit.slots.some(({ unlisted }) => unlisted !== null);
  for (const course of coursesOf(asked)) {
    if (judged === most) return notSettled(judged);
    judged += 1;
    atlas.pulse({ what: 'verdicts', done: judged, of: most });
    const then = saidOf(unitOf(atlas, { ...sheet, observations: [...sheet.observations, ...course.readings] }));
    if (!sameSaid(then, now))
      return { kind: 'go on', ...firstOf(asked, course), honest: then.honest, claim: then.claim, sentence: goOnSentence(now, then) };
    unproven ||= !course.settles;
  }
  return unproven ? notSettled(judged) : youMayStop(atlas, now, true);
};

/** @param left whether any check is still to be made */
const youMayStop = (atlas: CompiledAtlas, { claim }: Said, left: boolean): Stopping => ({
  kind: 'you may stop',
  sentence: stopSentence({ claimed: claim !== null, left, nameable: anyNameable(atlas) }),
});

/** Whether any name of the atlas could stand, were all parts known. */
export const anyNameable = (atlas: CompiledAtlas): boolean => groundOf(atlas).targets.all.some(({ rules }) => rules.length > 0);

const notSettled = (judged: number): Stopping => ({ kind: 'not settled', judged, sentence: notSettledSentence(judged) });

const askedOf = (atlas: CompiledAtlas, sheet: Sheet, assumptions: Assumptions): Asked => {
  const { checks, posterior } = weighingOf(atlas, sheet, assumptions);
  const unit = unitOf(atlas, sheet);
  const { possible } = ladderOf(unit);
  const barred = stagesBarred(atlas, sheet);
  const ranked = new Map(checks.map(({ feature }, at) => [feature, at]));
  const rankOfFeature = ({ id }: Feature): number => ranked.get(id) ?? checks.length;
  const unmade = askable(posterior)
    .map(({ feature }) => feature)
    .filter(({ stage }) => !barred.has(stage))
    .sort((a, b) => rankOfFeature(a) - rankOfFeature(b));
  return {
    atlas,
    sheet,
    unit,
    possible,
    telling: atlas.slots.map((slot) =>
      tellingOf(
        slot,
        unmade.filter((feature) => feature.slot === slot.data.id),
      ),
    ),
    rank: new Map(unmade.map(({ id }, at) => [id, at])),
  };
};

/** The first check of the order that has a part in it. */
const firstOf = ({ atlas, sheet, rank }: Asked, { readings }: Course): { slot: SlotId; feature: FeatureId; how: string } => {
  const [first] = [...readings].sort((a, b) => (rank.get(a.feature) as number) - (rank.get(b.feature) as number)) as [Observation];
  const feature = atlas.features.get(first.feature) as Feature;
  const slot = atlas.slots[atlas.slotNumber.get(first.slot) as number] as CompiledAtlas['slots'][number];
  const how = howToTake(atlas, slot, feature, { opening: openingOf(atlas, sheet, feature.stage) });
  return { slot: first.slot, feature: first.feature, how };
};
