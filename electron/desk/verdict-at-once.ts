import type { Answer, NameId, Reason, Status, Verdict } from '../../reasoner/index.ts';
import type { AnswerAtOnce } from '../bridge/verdict-calls.ts';

/** An answer as it is sent after every entry (`AnswerAtOnce`): of the hundreds of names judged with those alone that it speaks of. */
export const answerAtOnce = (answer: Answer): AnswerAtOnce => {
  if (answer.kind === 'contradiction') return answer;
  const spokenOf = namesSpokenOf(answer);
  const counts: Record<Status, number> = { stands: 0, open: 0, 'ruled out': 0 };
  for (const { status } of answer.names) counts[status] += 1;
  return { ...answer, names: answer.names.filter(({ name }) => spokenOf.has(name.id)), counts };
};

const namesSpokenOf = ({ claim, honest, names, ticket }: Verdict): ReadonlySet<NameId> => {
  const named = (reason: Reason): readonly NameId[] => (reason.kind === 'name' || reason.kind === 'rule' ? [reason.name] : []);
  return new Set([
    ...honest,
    ...(claim === null || claim.name === null ? [] : [claim.name]),
    // Whose conflicts were asked for: every name the claim may mean.
    ...names.flatMap(({ name, conflicts }) => (conflicts === null ? [] : [name.id])),
    ...[...ticket.may, ...ticket.mustNot].flatMap(({ because }) => because.flatMap(named)),
  ]);
};
