import { type Atlas, type CompiledAtlas, fitOf, type Sheet, type Verdict } from '../../reasoner/index.ts';
import { askZ3, type KeptZ3 } from '../oracle/ask-z3.ts';
import type { ClingoTime } from '../oracle/clingo.ts';
import { meanings, membersOf } from '../oracle/meanings.ts';
import { type Demand, type Question, readQuestion } from '../oracle/reading.ts';
import { askClingoFast, type Pairs } from './clingo-peer.ts';

/** A verdict put as a question to a solver: the statuses of every name it lists, and all reasons of every name it explains. */
export interface PeerQuestion {
  readonly question: Question;
  readonly explain: (demand: Demand) => boolean;
}

/**
 * The same question for the peers. Which parts agree and which pairs fit is worked out beforehand and not timed:
 * the peers are asked for the logic alone, the desk for the whole answer with its sentences.
 */
export const questionFor = (atlas: Atlas, compiled: CompiledAtlas, sheet: Sheet, verdict: Verdict): PeerQuestion => {
  const listed = new Set(verdict.names.flatMap(({ name }) => meanings(name)));
  const explained = new Set(verdict.names.filter(({ conflicts }) => conflicts !== null).flatMap(({ name }) => meanings(name)));
  const question = readQuestion(atlas, sheet, {
    names: (meaning) => listed.has(meaning),
    willNotFit: (joint, a, b) => fitOf(compiled, joint.id, a.id, b.id).verdict === 'will not fit',
  });
  return { question, explain: ({ names }) => names.some((meaning) => explained.has(meaning)) };
};

/** What all three must agree on, a line for each demand. */
type Said = readonly string[];

/** clingo, told of the pairs that fail or of those that do not; of all its calls together, what it says it took. */
export const clingoSays = async ({ question, explain }: PeerQuestion, pairs: Pairs, took?: (time: ClingoTime) => void): Promise<Said> =>
  lines(question, (await askClingoFast(question, explain, took === undefined ? { pairs } : { pairs, took })).demands);

/** Z3, by a solver that is kept from unit to unit or by one of its own. */
export const z3Says = async ({ question, explain }: PeerQuestion, kept?: KeptZ3): Promise<Said> =>
  lines(question, (await (kept === undefined ? askZ3(question, { explain }) : kept.ask(question, { explain }))).demands);

export const reasonerSays = ({ question, explain }: PeerQuestion, verdict: Verdict): Said => {
  const answers = new Map(verdict.names.flatMap((one) => meanings(one.name).map((meaning) => [meaning, one] as const)));
  return lines(
    question,
    question.demands.map((demand) => {
      // Names that demand the same are one demand; where one of them is explained, it speaks for all.
      const all = demand.names.flatMap((meaning) => answers.get(meaning) ?? []);
      const one = all.find(({ conflicts }) => conflicts !== null) ?? all[0];
      if (one === undefined) throw new Error(`the verdict has no name ${demand.names.join(' or ')}`);
      if (explain(demand) && one.conflicts !== null && !one.conflicts.complete)
        throw new Error(`not all conflicts of ${one.name.text} were found`);
      return {
        status: one.status,
        conflicts: (one.conflicts?.found ?? []).map((conflict) => membersOf(conflict, one.name)),
        swaps: (one.swaps?.found ?? []).map(({ slots }) => [...slots].sort().join(' ')),
      };
    }),
  );
};

const lines = (
  { demands }: Question,
  said: readonly { readonly status: string; readonly conflicts: readonly string[]; readonly swaps: readonly string[] }[],
): Said =>
  said.map(({ status, conflicts, swaps }, i) => {
    const names = [...(demands[i] as Demand).names].sort().join(' = ');
    return `${names}: ${status}; ${[...conflicts].sort().join(' + ')}; ${[...swaps].sort().join(' + ')}`;
  });
