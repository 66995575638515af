import { type Assumptions, startingAssumptions } from '../answer/assumptions.ts';
import type { Advice, Check, Doubt } from '../answer/odds.ts';
import type { Feature } from '../atlas/atlas.ts';
import type { CompiledAtlas, CompiledSlot } from '../compile/compiled.ts';
import { asId, type FeatureId, type ObservationId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { unitOf } from '../unit/unit.ts';
import { claimOf } from '../verdict/claim.ts';
import { doubtSentence, lookAgainToo, nothingMoreSentence, togetherSentence, youMayStop } from '../words/advice-sentences.ts';
import { nothingAlone } from '../words/settles-sentence.ts';
import { effectsOfCheck } from './check-effects.ts';
import { type Weighing, weighingOf } from './odds-of.ts';
import { checkBeside, stagesBarred } from './order-checks.ts';
import { saidOf } from './said.ts';
import { slipChances } from './slips.ts';
import { mayStop, type Stopping } from './stopping.ts';
import type { Weighed } from './weigh-checks.ts';

/** So likely to be wrong, an entry is worth another look before one stops; and so likely, beside a look. */
const worthAnotherLook = { before: 0.1, beside: 0.2 };

/** What to do next, and whether one may stop; see `Advice`. */
export interface Advised {
  readonly advice: Advice;
  readonly stopping: Stopping;
}

/**
 * What to do next, in one voice (Q1). Where one may stop that is said alone; but where everything against the claim rests on one entry, or one that is likely to be wrong would change the name or the claim,
 * it is read again first, and that one may stop is said of its reading the same. Else the first check of the order, or where none tells of the name the one that may still change the claim. Null when the sheet
 * contradicts itself. @throws RangeError as `oddsOf`
 */
export const adviceOf = (atlas: CompiledAtlas, sheet: Sheet, assumptions: Assumptions = startingAssumptions): Advised | null => {
  const stopping = mayStop(atlas, sheet, assumptions);
  if (stopping === null) return null;
  const weighing = weighingOf(atlas, sheet, assumptions);
  return { advice: stopping.kind === 'you may stop' ? atTheEnd(weighing, sheet, stopping) : onTheWay(weighing, sheet, stopping), stopping };
};

const atTheEnd = (weighing: Weighing, sheet: Sheet, { sentence }: Stopping): Advice => {
  const check = firstAgain(weighing, sheet);
  if (check === null) return { kind: 'stop', sentence, doubt: null };
  const twice = readTwice(sheet, check);
  const then = firstAgain(weighingOf(weighing.atlas, twice, weighing.assumptions), twice);
  const { how, brief, settles } = effectsOfCheck(
    weighing,
    sheet,
    check,
    then === null ? youMayStop : lookAgainToo(...namedIn(weighing, then)),
  );
  return { kind: 'read again', check, how, brief, settles, towards: null, doubt: null };
};

const onTheWay = (weighing: Weighing, sheet: Sheet, stopping: Stopping): Advice => {
  const check = weighing.checks[0] ?? (stopping.kind === 'go on' ? checkOn(weighing, sheet, stopping.feature) : null);
  const doubt = doubtBeside(weighing, sheet, check);
  if (check === null) return { kind: 'nothing more', sentence: nothingMoreSentence, doubt };
  const { how, brief, settles } = effectsOfCheck(weighing, sheet, check);
  const towards = stopping.kind === 'go on' ? stopping.sentence : null;
  return {
    kind: check.again.length > 0 ? 'read again' : 'look',
    check,
    how,
    brief,
    settles: settles === nothingAlone && towards !== null ? togetherSentence(towards) : settles,
    towards,
    doubt,
  };
};

/** The first entry to be read again before one stops: one everything against the claim rests on, then those likely to be wrong; of them those that would change the name or the claim. */
const firstAgain = (weighing: Weighing, sheet: Sheet): Check | null => {
  const features = [...againstTheClaim(weighing, sheet), ...suspects(weighing, worthAnotherLook.before)];
  for (const feature of new Set(features)) {
    const check = checkOn(weighing, sheet, feature);
    if (check !== null && check.again.length > 0 && effectsOfCheck(weighing, sheet, check).changes) return check;
  }
  return null;
};

const againstTheClaim = ({ atlas }: Weighing, sheet: Sheet): FeatureId[] => {
  const unit = unitOf(atlas, sheet);
  if (saidOf(unit).claim !== 'ruled out') return [];
  return featuresOf(sheet, claimOf(unit, new Map())?.restsOn ?? []);
};

/** @param least how likely each is to be wrong, at least */
const suspects = ({ posterior }: Weighing, least: number): FeatureId[] =>
  featuresOf(
    posterior.sheet,
    slipChances(posterior)
      .filter(({ chance }) => chance >= least)
      .map(({ observation }) => observation),
  );

const featuresOf = ({ observations }: Sheet, ids: readonly ObservationId[]): FeatureId[] =>
  ids.flatMap((id) => observations.find((each) => each.id === id)?.feature ?? []);

/** The check of a feature, whether it has a place in the order or not; null where it can no longer be made. */
const checkOn = ({ atlas, weighed, checks, posterior }: Weighing, sheet: Sheet, feature: FeatureId): Check | null => {
  const known = checks.find((each) => each.feature === feature);
  if (known !== undefined) return known;
  const one = weighed.find((each) => each.feature.id === feature);
  if (one === undefined || stagesBarred(atlas, sheet).has(one.feature.stage)) return null;
  return checkBeside(atlas, sheet, one, posterior.bits);
};

/** An entry likely to be wrong that would change the name or the claim, and is not asked for already. */
const doubtBeside = (weighing: Weighing, sheet: Sheet, asked: Check | null): Doubt | null => {
  for (const feature of suspects(weighing, worthAnotherLook.beside)) {
    const check = feature === asked?.feature ? null : checkOn(weighing, sheet, feature);
    if (check !== null && effectsOfCheck(weighing, sheet, check).changes)
      return { slot: check.slot, feature, sentence: doubtSentence(...namedIn(weighing, check)) };
  }
  return null;
};

/** The sheet with the last of the entries read once more, and the same. */
const readTwice = (sheet: Sheet, { again }: Check): Sheet => {
  const last = sheet.observations.findLast(({ id }) => again.includes(id));
  return last === undefined
    ? sheet
    : { ...sheet, observations: [...sheet.observations, { ...last, id: asId<ObservationId>('read-again') }] };
};

const namedIn = ({ weighed }: Weighing, { feature }: Check): [CompiledSlot, Feature] => {
  const { slot, feature: of } = weighed.find((each) => each.feature.id === feature) as Weighed;
  return [slot, of];
};
