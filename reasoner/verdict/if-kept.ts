import type { ClaimAnswer, Contradicted, IfKept, NameAnswer } from '../answer/verdict.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { FitVerdict } from '../fits/fit.ts';
import type { NameId, ObservationId, SlotId } from '../ids.ts';
import { honestOf, ladderOf } from '../names/ladder.ts';
import type { Observation, Sheet } from '../sheet/sheet.ts';
import { unitOf } from '../unit/unit.ts';
import { ifKeptSentence } from '../words/if-kept-sentence.ts';
import { claimedIn, claimOf } from './claim.ts';

/** More disagreeing entries than these are named without what each would mean: every one is a judgement of its own, and the counter waits. */
export const mostJudged = 12;

/** What a sheet without disagreement comes to, in short. */
export interface Standing {
  readonly honest: IfKept['honest'];
  readonly claim: ClaimAnswer | null;
  /** Listed parts left in a slot; null for a build on paper, where they are chosen. */
  readonly left: (slot: SlotId) => number | null;
  readonly fit: FitVerdict | null;
}

/**
 * O6: the disagreeing pairs with what each entry would mean if it were the true one. Each is judged on the sheet without the other, and without every other
 * entry that disagrees with one, so that nothing is concluded from an entry in doubt but the one kept.
 */
export const withMeanings = (
  contradicted: Contradicted,
  atlas: CompiledAtlas,
  sheet: Sheet,
  judge: (alone: Sheet) => Standing,
): Contradicted => {
  const named = new Set(contradicted.contradictions.flatMap(({ observations }) => observations));
  const disputed = sheet.observations.filter(({ id }) => named.has(id));
  if (disputed.length > mostJudged) return contradicted;
  const meanings = new Map(disputed.map((kept) => [kept.id, ifKept(atlas, sheet, disputed, kept, judge)]));
  const of = (id: ObservationId): IfKept => meanings.get(id) as IfKept;
  return {
    ...contradicted,
    contradictions: contradicted.contradictions.map((one) => ({ ...one, meanings: [of(one.observations[0]), of(one.observations[1])] })),
  };
};

const ifKept = (
  atlas: CompiledAtlas,
  sheet: Sheet,
  disputed: readonly Observation[],
  kept: Observation,
  judge: (alone: Sheet) => Standing,
): IfKept => {
  const aside = disputed.filter((one) => one !== kept);
  const standing = judge({ ...sheet, observations: sheet.observations.filter((one) => !aside.includes(one)) });
  const { honest, claim, fit } = standing;
  const left = standing.left(kept.slot);
  return {
    observation: kept.id,
    aside: aside.map(({ id }) => id),
    honest,
    claim: claim === null ? null : { name: claim.name, status: claim.status },
    left,
    fit,
    sentence: ifKeptSentence(atlas, kept, aside.length > 1, { honest, claim, left, fit }),
  };
};

/** A found unit in short: no reasons, no swaps, no findings. */
export const standingOf = (atlas: CompiledAtlas, sheet: Sheet): Standing => {
  const unit = unitOf(atlas, sheet);
  const ladder = ladderOf(unit);
  const answers = new Map<NameId, NameAnswer>(
    [...ladder.possible, ...claimedIn(ladder, unit)].map(({ rule, status }) => [
      rule.name.id,
      { name: rule.name, status, unsettled: [], lacks: [], conflicts: null, swaps: null },
    ]),
  );
  return {
    honest: honestOf(ladder).map(({ rule: { name } }) => ({ name: name.id, text: name.text, rung: name.rung })),
    claim: claimOf(unit, answers),
    left: (id) => unit.slots.find(({ of }) => of.data.id === id)?.liveParts ?? 0,
    fit: null,
  };
};
