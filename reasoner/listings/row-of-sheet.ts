import type { ClaimAnswer, Conflict, Conflicts, Verdict } from '../answer/verdict.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { FeatureId, SlotId } from '../ids.ts';
import { settlingChecks } from '../report/settling-checks.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { unitOf } from '../unit/unit.ts';
import { answer } from '../verdict/answer.ts';
import { independentReasons } from '../why/independent-reasons.ts';
import { kindOfReason } from '../why/order-of-reasons.ts';
import { stripDownMinutes } from '../why/strip-down.ts';
import { describedAs } from '../words/ticket.ts';
import type { ListingsRow, Plainness, Standing } from './listings.ts';
import { toldAsSeen } from './told-as-seen.ts';

/** One sheet judged, as a row of the list. */
export const rowOfSheet = (atlas: CompiledAtlas, source: string, sheet: Sheet): ListingsRow => {
  const row = {
    source,
    sheet: sheet.id,
    title: sheet.title,
    claimed: sheet.claimed,
    plainness: null,
    lookFirst: null,
    may: null,
    offer: null,
  } as const;
  if (sheet.kind === 'planned')
    return { ...row, standing: 'planned build', sentences: ['A build on paper: nothing is claimed of a unit that is there.'] };
  const found = answer(atlas, sheet);
  switch (found.kind) {
    case 'contradiction':
      return {
        ...row,
        standing: 'contradiction',
        sentences: found.contradictions.flatMap(({ sentence, meanings }) => [sentence, ...(meanings ?? []).map((each) => each.sentence)]),
      };
    case 'verdict': {
      const judged = standingOf(found.claim);
      const supposed = toldAsSeen(atlas, sheet);
      // Only of a claim that looking has left open, or let stand, is there anything for its own words to say.
      const own = supposed !== null && (judged === 'open' || judged === 'stands') ? wordsAgainst(atlas, supposed.sheet) : null;
      const standing: Standing = own === null ? judged : 'own words against it';
      return {
        ...row,
        standing,
        plainness: own?.plainness ?? (standing === 'ruled out' ? plainnessOf(atlas, sheet, found) : null),
        sentences: [...(own === null ? sentencesOf(found, standing) : own.sentences), ...(supposed?.disagree ?? [])],
        lookFirst: own === null ? (judged === 'open' ? settlingLook(atlas, sheet, found) : null) : own.lookFirst,
        may: mayOf(atlas, found),
      };
    }
  }
};

interface Against {
  readonly plainness: Plainness;
  readonly sentences: readonly string[];
  readonly lookFirst: string | null;
}

/**
 * What the seller's own words say against the claim: were they true, it would be ruled out. Null where it would not. Nothing is ruled out by it (O1): either the name
 * or the words are wrong, and which is for a look to tell.
 */
const wordsAgainst = (atlas: CompiledAtlas, supposed: Sheet): Against | null => {
  const found = answer(atlas, supposed);
  if (found.kind !== 'verdict' || standingOf(found.claim) !== 'ruled out') return null;
  const leading = claimedConflicts(found)?.found[0];
  const broken = brokenPromises(found);
  const said = leading?.sentence ?? broken[0]?.sentence;
  const features = leading === undefined ? broken.map(({ feature }) => feature) : featuresAmong(supposed, leading.members);
  return {
    plainness: plainnessOf(atlas, supposed, found),
    sentences: [
      ...(said === undefined ? [] : [`By its own words: ${said.charAt(0).toLowerCase()}${said.slice(1)}`]),
      'So the name or the words are wrong; which, only a look tells, and nothing is ruled out before.',
    ],
    lookFirst: lookAt(atlas, features),
  };
};

const featuresAmong = (sheet: Sheet, members: Conflict['members']): FeatureId[] =>
  members.flatMap((member) =>
    member.kind === 'observation' ? (sheet.observations.find(({ id }) => id === member.observation)?.feature ?? []) : [],
  );

/** Of these features the one soonest seen on a unit as received; null of none. */
const lookAt = (atlas: CompiledAtlas, features: readonly FeatureId[]): string | null => {
  const looks = features.flatMap((id) => {
    const feature = atlas.features.get(id);
    return feature === undefined ? [] : [{ feature, minutes: stripDownMinutes(atlas, [feature.stage]) + feature.minutes }];
  });
  const [first] = looks.sort((a, b) => a.minutes - b.minutes || (a.feature.id < b.feature.id ? -1 : 1));
  if (first === undefined) return null;
  const { feature, minutes } = first;
  const slot = slotNameOf(atlas, feature.slot);
  return `Look first at the ${slot}: ${feature.name} (${atlas.stages.get(feature.stage)?.name ?? feature.stage}, ${minutes} min).`;
};

/** Of a claim that is open, the look that tells most of what its name allows from what else may be there; of several slots the one that settles, and soonest. */
const settlingLook = (atlas: CompiledAtlas, sheet: Sheet, verdict: Verdict): string | null => {
  const name = verdict.names.find((one) => one.name.id === verdict.claim?.name);
  if (name === undefined) return null;
  const checks = settlingChecks(unitOf(atlas, sheet), verdict.slots, [name]);
  const best = checks.some(({ settles }) => settles) ? checks.filter(({ settles }) => settles) : checks;
  return lookAt(
    atlas,
    best.map(({ feature }) => feature),
  );
};

const standingOf = (claim: ClaimAnswer | null): Standing => {
  if (claim === null) return 'nothing claimed';
  switch (claim.reading.verdict) {
    case 'no maker’s name':
    case 'no name of this maker':
      return 'no name';
    case 'a model of the atlas':
    case 'well formed, not in the atlas':
    case 'no rule to read it by':
      return claim.status;
  }
};

const claimedConflicts = (verdict: Verdict): Conflicts | null =>
  verdict.names.find(({ name }) => name.id === verdict.claim?.name)?.conflicts ?? null;

/**
 * Of a name the atlas lists, by its conflicts. A well-formed name it does not list has none: there each broken promise is a reason, whose
 * members are the promise and the entries of the slot it speaks of (all entries, where that slot has none of its own).
 */
const plainnessOf = (atlas: CompiledAtlas, sheet: Sheet, verdict: Verdict): Plainness => {
  const conflicts = claimedConflicts(verdict);
  const leading = conflicts?.found[0];
  if (conflicts && leading)
    return {
      restsOn: kindOfReason({ atlas, sheet }, leading),
      members: leading.members.length,
      minutes: leading.minutes,
      reasons: conflicts.independent,
    };
  const broken = brokenFeatures(verdict).map((feature) => {
    const entries = entriesOf(sheet, atlas.features.get(feature)?.slot ?? null);
    const stages = entries.flatMap((entry) => atlas.features.get(entry.feature)?.stage ?? []);
    return {
      members: entries.map(({ id }) => ({ kind: 'observation', observation: id }) as const),
      minutes: stripDownMinutes(atlas, stages),
    };
  });
  const [first] = broken.sort((a, b) => a.members.length - b.members.length || a.minutes - b.minutes);
  return {
    restsOn: 'the parts',
    members: 1 + (first?.members.length ?? 0),
    minutes: first?.minutes ?? 0,
    reasons: independentReasons(broken),
  };
};

/** The promises of the claimed name that do not hold, each with its sentence. */
const brokenPromises = ({ claim }: Verdict): { readonly feature: FeatureId; readonly sentence: string }[] =>
  (claim?.reading.tokens ?? []).flatMap(({ promises }) => promises.filter(({ truth }) => truth === 'fails'));

const brokenFeatures = (verdict: Verdict): FeatureId[] => [...new Set(brokenPromises(verdict).map(({ feature }) => feature))];

const entriesOf = (sheet: Sheet, slot: SlotId | null) => {
  const seen = sheet.observations.filter(({ sure }) => sure.kind !== 'told');
  const own = seen.filter((entry) => entry.slot === slot);
  return own.length > 0 ? own : seen;
};

/** The claim's own sentences; of one ruled out, the leading reason after its status. */
const sentencesOf = (verdict: Verdict, standing: Standing): string[] => {
  const said = verdict.claim?.sentences ?? [];
  const leading = standing === 'ruled out' ? claimedConflicts(verdict)?.found[0] : undefined;
  // Of a model of the atlas nothing is said beside its status, and before that what everything rests on.
  if (leading !== undefined) return [...said, leading.sentence];
  return said.length > 0 ? [...said] : ['Nothing is claimed.'];
};

/** The honest name under a heading, with the caution where it stands (N3). */
const mayOf = (atlas: CompiledAtlas, { honest, names, slots }: Verdict): string => {
  const plates = new Set(atlas.data.slots.flatMap(({ id, group }) => (group === 'plate' ? [id] : [])));
  return describedAs(
    honest.flatMap((id) => names.find(({ name }) => name.id === id) ?? []),
    slots.some(({ slot, absent }) => plates.has(slot) && !absent),
  );
};
