import type { ClaimAnswer, Conflicts, Verdict } from '../answer/verdict.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import type { FeatureId, SlotId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { answer } from '../verdict/answer.ts';
import { independentReasons } from '../why/independent-reasons.ts';
import { kindOfReason } from '../why/order-of-reasons.ts';
import { stripDownMinutes } from '../why/strip-down.ts';
import { describedAs } from '../words/ticket.ts';
import type { ListingsRow, Plainness, Standing } from './listings.ts';

/** One sheet judged, as a row of the list. */
export const rowOfSheet = (atlas: CompiledAtlas, source: string, sheet: Sheet): ListingsRow => {
  const row = { source, sheet: sheet.id, title: sheet.title, claimed: sheet.claimed, plainness: null, may: null } as const;
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
      const standing = standingOf(found.claim);
      return {
        ...row,
        standing,
        plainness: standing === 'ruled out' ? plainnessOf(atlas, sheet, found) : null,
        sentences: sentencesOf(found, standing),
        may: mayOf(atlas, found),
      };
    }
  }
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

const brokenFeatures = ({ claim }: Verdict): FeatureId[] => [
  ...new Set(
    (claim?.reading.tokens ?? []).flatMap(({ promises }) =>
      promises.filter(({ truth }) => truth === 'fails').map(({ feature }) => feature),
    ),
  ),
];

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
