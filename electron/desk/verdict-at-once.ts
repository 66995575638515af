import type {
  BriefVerdict,
  ClaimAnswer,
  Conflict,
  Conflicts,
  Finding,
  InBrief,
  NameAnswer,
  NameId,
  Reason,
  Status,
  SwapSet,
  SwapSets,
} from '../../reasoner/index.ts';
import { reasonsApart } from '../../reasoner/plain/reasons-apart.ts';
import type { AnswerAtOnce, ClaimTold, ConflictsTold, NameTold, SwapsTold, SwapTold } from '../bridge/verdict-calls.ts';

/** So many of each are told at once: about what a window shows of them unasked. */
const first = { lines: 5, apart: 16, ways: 8, readings: 1, wouldBe: 2 } as const;

/** An answer as it is sent after every entry (`VerdictAtOnce`): as large over a large atlas as over a small one. */
export const answerAtOnce = (answer: InBrief['brief']): AnswerAtOnce => {
  if (answer.kind === 'contradiction') return answer;
  const { claim, spoken, open, unit, findings, ...rest } = answer;
  const spokenOf = namesSpokenOf(answer);
  const claimed = claim?.name ?? null;
  return {
    ...rest,
    findings: findings.map(findingTold),
    unit: conflictsTold(unit),
    // Of the names a claim may mean the one it is judged by has its reasons beside it.
    names: spoken.flatMap((one) =>
      spokenOf.has(one.name.id) ? [nameTold(one.name.id === claimed ? one : { ...one, conflicts: null, swaps: null })] : [],
    ),
    open: open.length,
    claim: claim === null ? null : claimTold(claim),
  };
};

/** How many of these names stand, are open and are ruled out. */
export const countsOf = (names: readonly Pick<NameAnswer, 'status'>[]): Record<Status, number> => {
  const counts: Record<Status, number> = { stands: 0, open: 0, 'ruled out': 0 };
  for (const { status } of names) counts[status] += 1;
  return counts;
};

export const nameTold = ({ conflicts, swaps, ...name }: NameAnswer): NameTold => ({
  ...name,
  conflicts: conflicts === null ? null : conflictsTold(conflicts),
  swaps: swaps === null ? null : swapsTold(swaps),
});

/** The first, and beside them those that share no entry, which are counted aloud and shown before the rest is unfolded (K1). */
const conflictsTold = (conflicts: Conflicts): ConflictsTold => {
  const { found } = conflicts;
  const lines = found.length;
  if (lines <= first.lines) return { ...conflicts, lines };
  const apart = reasonsApart(conflicts).slice(0, first.apart);
  const rest = [...found.keys()].filter((at) => !apart.includes(at)).slice(0, Math.max(0, first.lines - apart.length));
  return { ...conflicts, found: [...apart, ...rest].sort((a, b) => a - b).map((at) => found[at] as Conflict), lines };
};

const swapsTold = ({ found, complete }: SwapSets): SwapsTold => ({
  found: found.slice(0, first.ways).map(swapTold),
  ways: found.length,
  complete,
});

export const swapTold = (set: SwapSet): SwapTold => ({
  ...set,
  parts: set.parts.map(({ slot, parts }) => ({ slot, count: parts.length })),
});

/** The sentences of each reading stand at the end, in their order; those of a reading that is not told go with it. */
const claimTold = (claim: ClaimAnswer): ClaimTold => {
  const later = claim.others.slice(first.readings).flatMap(({ sentences }) => sentences).length;
  return {
    ...claim,
    sentences: claim.sentences.slice(0, claim.sentences.length - later),
    others: claim.others.slice(0, first.readings),
    readings: claim.others.length,
  };
};

/** What a part would be but for the letters on it is told in its sentence. */
const findingTold = (finding: Finding): Finding =>
  finding.kind === 'mark' ? { ...finding, wouldBe: finding.wouldBe.slice(0, first.wouldBe) } : finding;

const namesSpokenOf = ({ claim, honest, ticket }: BriefVerdict): ReadonlySet<NameId> => {
  const named = (reason: Reason): readonly NameId[] => (reason.kind === 'name' || reason.kind === 'rule' ? [reason.name] : []);
  return new Set([
    ...honest,
    ...(claim === null ? [] : [claim, ...claim.others.slice(0, first.readings)].flatMap(({ name }) => name ?? [])),
    ...[...ticket.may, ...ticket.mustNot].flatMap(({ because }) => because.flatMap(named)),
  ]);
};
