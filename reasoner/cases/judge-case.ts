import type { ClaimAnswer, Contradicted, NameAnswer, SlotAnswer, Status, Verdict } from '../answer/verdict.ts';
import type { Part } from '../atlas/atlas.ts';
import type { Plan } from '../builds/plan.ts';
import { planBuild } from '../builds/plan-build.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import type { NameId, PartId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { answer } from '../verdict/answer.ts';
import { type CaseContradicted, type CaseVerdict, type KeptName, type KeptSlot, readable } from './case-verdict.ts';

/** More conflicts than this are not kept as sentences; the first are the shortest (K1). */
const keptConflicts = 12;

/** A sheet judged for its case: what is kept, and the status of every name that was judged, kept or not. */
export interface JudgedCase {
  readonly verdict: CaseVerdict;
  readonly statuses: ReadonlyMap<NameId, Status>;
}

/**
 * The verdict on a sheet as a case keeps it: of a found unit its names (N1–N4), of a planned build what it may be called and whether it
 * goes together (F4).
 * @throws when the sheet speaks of slots, features or parts the atlas does not have; the door refuses those
 */
export const judgeCase = (atlas: CompiledAtlas, sheet: Sheet): CaseVerdict => judged(atlas, sheet, true).verdict;

/** `reasons`: with the conflicts of the claimed name, which take most of the time. */
export const judged = (atlas: CompiledAtlas, sheet: Sheet, reasons: boolean): JudgedCase => {
  const found = sheet.kind === 'planned' ? planBuild(atlas, sheet) : answer(atlas, sheet, { explain: reasons ? 'claim' : 'none' });
  if (found.kind === 'contradiction') return { verdict: contradicted(found), statuses: new Map() };
  const kept = (ids: readonly NameId[]): KeptName[] => ids.flatMap((id) => found.names.filter(({ name }) => name.id === id).map(keptName));
  const claimed = found.names.find(({ name }) => name.id === found.claim?.name) ?? null;
  return {
    verdict: {
      kind: 'verdict',
      edition: found.edition,
      honest: kept(found.honest),
      open: kept(found.open),
      claim: found.claim === null ? null : { text: found.claim.text, name: found.claim.name, status: found.claim.status },
      names: found.names.filter(({ status }) => status !== 'ruled out').map(keptName),
      slots: found.kind === 'plan' ? slotsOfPlan(atlas, found) : slotsOf(atlas, found),
      fit: found.kind === 'plan' ? found.verdict : null,
      sentences: found.kind === 'plan' ? sentencesOfPlan(found, claimed) : sentencesOf(found, claimed),
      cautions: found.cautions,
      ticket: { may: found.ticket.may.map(({ text }) => text), mustNot: found.ticket.mustNot.map(({ text }) => text) },
    },
    statuses: new Map(found.names.map(({ name, status }) => [name.id, status])),
  };
};

const contradicted = ({ edition, contradictions }: Contradicted): CaseContradicted => ({
  kind: 'contradiction',
  edition,
  sentences: contradictions.flatMap(({ sentence, meanings }) => [sentence, ...(meanings ?? []).map((each) => each.sentence)]),
});

const keptName = ({ name: { id, text, rung }, status }: NameAnswer): KeptName => ({ id, text, rung, status });

const sentencesOf = (verdict: Verdict, claimed: NameAnswer | null): string[] => [
  ...ofClaim(verdict.claim, claimed),
  ...verdict.unit.found.slice(0, keptConflicts).map(({ sentence }) => sentence),
  ...verdict.findings.map(({ sentence }) => sentence),
];

const sentencesOfPlan = (plan: Plan, claimed: NameAnswer | null): string[] => [
  plan.sentence,
  ...ofClaim(plan.claim, claimed),
  ...plan.works.map(({ sentence }) => sentence),
  ...plan.findings.map(({ sentence }) => sentence),
];

const ofClaim = (claim: ClaimAnswer | null, claimed: NameAnswer | null): string[] => [
  ...(claim?.sentences ?? []),
  ...(claimed?.conflicts?.found.slice(0, keptConflicts).map(({ sentence }) => sentence) ?? []),
];

const slotsOf = (atlas: CompiledAtlas, verdict: Verdict): KeptSlot[] =>
  verdict.slots.map(({ slot, candidates, absent, doubtful }: SlotAnswer) => ({
    slot,
    name: slotNameOf(atlas, slot),
    left: candidates.length,
    parts: candidates.length > readable ? null : candidates.map((part) => partOf(atlas, part)),
    absent,
    doubtful,
  }));

const slotsOfPlan = (atlas: CompiledAtlas, plan: Plan): KeptSlot[] =>
  plan.slots.map(({ slot, part, absent, stranger }) => ({
    slot,
    name: slotNameOf(atlas, slot),
    left: part === null ? 0 : 1,
    parts: part === null ? [] : [partOf(atlas, part)],
    absent,
    doubtful: stranger,
  }));

const partOf = (atlas: CompiledAtlas, id: PartId): { readonly id: PartId; readonly name: string } => ({
  id,
  name: (atlas.parts.get(id) as Part | undefined)?.name ?? id,
});
